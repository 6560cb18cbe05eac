"use client";

import type { Dispatch } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { capital } from "@/app/_ui/capital";
import { Evidence } from "@/app/_ui/evidence";
import { Icon } from "@/app/_ui/icon";
import { WithFlats } from "@/app/_ui/music-sign";
import { nameSpan } from "@/app/_ui/name-span";
import { inkOf } from "@/app/_ui/party";
import { isSameSpan } from "@/lib/score/cut-span";
import { sayBarCount } from "@/lib/score/say-bar-count";
import { sayClock } from "@/lib/score/say-clock";
import type { OfferedCut } from "@/lib/study/look-for-cuts";
import type { DeskMove, DeskState } from "../_components/desk-state";
import { type CutEnds, endsOfSpan, spanOfEnds } from "../_cuts/cut-questions";
import { sayNeedUnder } from "../_cuts/say-need";
import { JoinListen } from "../_join/join-listen";
import { JoinSeam } from "../_join/join-seam";
import { sayGrade } from "../_join/join-words";
import { WeighButton } from "../_weigh/weigh-button";
import { useFoundCuts } from "./search-provider";
import styles from "./search-results.module.css";
import { namePlaceOfSearch, type SearchSettings } from "./search-settings";

/** So many of a cut's reasons are on the screen before it is opened. */
const firstReasons = 2;

/** What a search found, the best first, each with what speaks for and against it. */
export function SearchResults({
  desk,
  state,
  move,
  asked,
}: {
  desk: Desk;
  state: DeskState;
  move: Dispatch<DeskMove>;
  asked: SearchSettings;
}) {
  const { value, isWorking } = useFoundCuts();
  const where = namePlaceOfSearch(desk, asked.place);
  return (
    <div className={styles.results} aria-busy={isWorking}>
      <p className={styles.count} role="status">
        {value === null ? "" : isWorking ? `${where}: looking again.` : `${where}: ${sayCount(value.length)}`}
      </p>
      {value && (
        <ol data-working={isWorking || undefined}>
          {value.map((cut) => (
            <Found key={cut.name} desk={desk} cut={cut} state={state} move={move} />
          ))}
        </ol>
      )}
    </div>
  );
}

function sayCount(count: number): string {
  if (count === 0) return "nothing found. Keep less, or let it save less.";
  return count === 1 ? "one cut found." : `${count} cuts found, the best first.`;
}

/** Whether this is the cut that is looked at now. */
export function isLookedAt(state: Pick<DeskState, "looked">, { from, to }: CutEnds): boolean {
  const { looked } = state;
  return (
    looked !== null &&
    looked.from.barIndex === from.barIndex &&
    looked.from.offset === from.offset &&
    looked.to.barIndex === to.barIndex &&
    looked.to.offset === to.offset
  );
}

function Found({
  desk,
  cut,
  state,
  move,
}: {
  desk: Desk;
  cut: OfferedCut;
  state: DeskState;
  move: Dispatch<DeskMove>;
}) {
  const ends = endsOfSpan(cut);
  const isLooked = isLookedAt(state, ends);
  const reasons = cut.reasons.slice(0, firstReasons);
  const more = cut.reasons.slice(firstReasons);
  const known = desk.cuts.find(
    (one) => one.state === "open" && !one.isStale && isSameSpan(spanOfEnds(one), cut),
  );
  return (
    <li className={styles.found} data-looked={isLooked || undefined}>
      <h3>
        <JoinSeam grade={cut.grade} />
        <span>
          {capital(cut.name)} <small>{sayGrade(cut.grade)}</small>
          {known && <small> · cut {known.number}, proposed already</small>}
        </span>
      </h3>
      <p className={styles.figures}>
        <b>{sayClock(cut.weight.savedSeconds)} shorter</b>, {sayBarCount(cut.weight.barCount)} ·{" "}
        {sayRunning(cut)}
      </p>
      <ul className={styles.reasons}>
        {reasons.map((reason) => (
          <li key={reason}>
            <WithFlats text={reason} />
          </li>
        ))}
      </ul>
      {cut.robs.map((need) => {
        const { point, rest } = sayNeedUnder(desk, need);
        return (
          <p key={need.need.id} className={styles.robs}>
            <Icon name="warning" small />
            Takes a needed rest: {point} {rest}
          </p>
        );
      })}
      {(more.length > 0 || cut.alsoAt.length > 0) && <MoreOf desk={desk} cut={cut} more={more} move={move} />}
      <div className={styles.buttons}>
        <Button
          small
          aria-pressed={isLooked}
          aria-label={`Look at ${cut.name}`}
          onClick={() => move({ kind: "look", looked: isLooked ? null : { ...ends, name: cut.name } })}
        >
          Look
        </Button>
        <JoinListen desk={desk} ends={ends} number={null} />
        <WeighButton
          small
          pick={known ? { kind: "proposal", id: known.id } : { kind: "ends", ...ends }}
          name={cut.name}
          picks={state.picks}
          move={move}
        />
        {known && (
          <Button small onClick={() => move({ kind: "open-cut", cutId: known.id, bar: known.firstBar })}>
            Open cut {known.number}
          </Button>
        )}
        {desk.may.propose && !known && (
          <Button
            small
            kind="propose"
            ink={inkOf(desk.me.role)}
            aria-label={`Propose ${cut.name}`}
            onClick={() => move({ kind: "draft", draft: { ...ends, replaces: null } })}
          >
            Propose…
          </Button>
        )}
      </div>
    </li>
  );
}

/** The other reasons, and the places where the same cut can be made. */
function MoreOf({
  desk,
  cut,
  more,
  move,
}: {
  desk: Desk;
  cut: OfferedCut;
  more: readonly string[];
  move: Dispatch<DeskMove>;
}) {
  return (
    <Evidence summary={cut.alsoAt.length > 0 ? "More, and where it comes to the same" : "More reasons"}>
      <ul>
        {more.map((reason) => (
          <li key={reason}>
            <WithFlats text={reason} />
          </li>
        ))}
        {cut.alsoAt.map((span) => {
          const ends = endsOfSpan(span);
          const name = nameSpan(desk.bars, ends.from, ends.to);
          return (
            <li key={name} className={styles.also}>
              <span>It comes to the same: {name}</span>
              <Button
                small
                aria-label={`Look at ${name}`}
                onClick={() => move({ kind: "look", looked: { ...ends, name } })}
              >
                Look
              </Button>
            </li>
          );
        })}
      </ul>
    </Evidence>
  );
}

/** "11:51, rest 0:26". */
export function sayRunning({ weight }: Pick<OfferedCut, "weight">): string {
  const rest = weight.rest === null ? "" : `, rest ${sayClock(weight.rest.afterSeconds)}`;
  return `${sayClock(weight.runningAfter.seconds)}${rest}`;
}
