"use client";

import { memo } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import type { DeskRewrite } from "@/app/_data/desk/hands-desk";
import { Button } from "@/app/_ui/button";
import { capital } from "@/app/_ui/capital";
import { nameBars } from "@/app/_ui/name-span";
import { Progress } from "@/app/_ui/progress";
import { SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import { useAction } from "../../_components/use-action";
import { bringBackRewriteAction } from "../../actions/bring-back-rewrite";
import type { ListedPlace } from "./list-places";
import styles from "./passage-list.module.css";
import { Triangle } from "./triangle";

/** What does not lie well at this tempo, in the order of the page, and what is done about it. */
export const PassageList = memo(function PassageList({
  desk,
  places,
  shownKey,
  takenOff,
  done,
  onPick,
}: {
  desk: Desk;
  /** Null while the piece is being judged. */
  places: readonly ListedPlace[] | null;
  shownKey: string | null;
  takenOff: readonly DeskRewrite[];
  /** How far judging has come, from 0 to 1. */
  done: number;
  onPick: (place: ListedPlace) => void;
}) {
  const awkward = places?.filter(({ passage }) => passage !== null).length ?? 0;
  return (
    <Sheet className={styles.list} aria-label="Awkward at tempo">
      <h2 className={styles.head}>
        Awkward at tempo
        {places && (
          <small className={styles.count}>{awkward === 1 ? "1 passage" : `${awkward} passages`}</small>
        )}
      </h2>
      {places === null && (
        <div className={styles.waits}>
          <Progress words="Looking at every bar" done={done} />
        </div>
      )}
      {places?.length === 0 && (
        <p className={styles.none}>Everything lies well under your hands at this tempo.</p>
      )}
      <ol>
        {places?.map((place) => (
          <li key={place.key}>
            <Item desk={desk} place={place} isShown={place.key === shownKey} onPick={onPick} />
          </li>
        ))}
      </ol>
      {takenOff.length > 0 && <TakenOff desk={desk} rewrites={takenOff} />}
    </Sheet>
  );
});

function Item({
  desk,
  place,
  isShown,
  onPick,
}: {
  desk: Desk;
  place: ListedPlace;
  isShown: boolean;
  onPick: (place: ListedPlace) => void;
}) {
  const { number, fromBar, toBar, name, figures, state, rewrite } = place;
  return (
    <button
      type="button"
      className={styles.item}
      aria-current={isShown || undefined}
      onClick={() => onPick(place)}
    >
      <span className={styles.sign}>
        <Triangle isSolved={state.isSolved} says={state.isSolved ? "Settled." : "Open."} />
        <b>{number}</b>
      </span>
      <span className={styles.words}>
        <b>{capital(nameBars(desk.bars, { firstBar: fromBar, lastBar: toBar }))}</b>
        <span>{name ?? (rewrite?.terms.words ? capital(rewrite.terms.words) : "Own rewrite")}</span>
        {figures && <small className={styles.figures}>{figures}</small>}
        {state.place && <small className={styles.figures}>{state.place}</small>}
      </span>
      <span className={styles.state}>{state.words}</span>
    </button>
  );
}

function TakenOff({ desk, rewrites }: { desk: Desk; rewrites: readonly DeskRewrite[] }) {
  const { run, isBusy, problem } = useAction();
  return (
    <details className={styles.takenOff}>
      <summary>Taken off: {rewrites.length}</summary>
      {problem && <SayProblem>{problem}</SayProblem>}
      <ul>
        {rewrites.map(({ id, number, name, terms }) => (
          <li key={id}>
            <span>
              Rewrite {number}, {name}
              {terms.words && <small className={styles.what}>{terms.words}</small>}
            </span>
            <Button
              small
              disabled={isBusy}
              onClick={() => run(bringBackRewriteAction, { pieceId: desk.pieceId, rewriteId: id })}
            >
              Bring back
            </Button>
          </li>
        ))}
      </ul>
    </details>
  );
}
