"use client";

import { type Dispatch, useContext } from "react";
import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import { ListenButton } from "@/app/_sound/listen-button";
import { SoundContext } from "@/app/_sound/sound-context";
import { Button, ButtonLink } from "@/app/_ui/button";
import { capital } from "@/app/_ui/capital";
import { Evidence } from "@/app/_ui/evidence";
import { Icon } from "@/app/_ui/icon";
import { RehearsalBox } from "@/app/_ui/rehearsal-box";
import { RestBar } from "@/app/_ui/rest-bar";
import { Card } from "@/app/_ui/sheet";
import { Spoken } from "@/app/_ui/spoken";
import { sayBarCount } from "@/lib/score/say-bar-count";
import { sayClock } from "@/lib/score/say-clock";
import type { PlannedCandidate } from "@/lib/study/plan-piece";
import type { WeighedCut } from "@/lib/study/weigh-set";
import { personOf, sayWho, soloistOf, whose } from "../../_components/person";
import { agreedCuts, endsOfSpan } from "../../_cuts/cut-questions";
import { JoinSeam } from "../../_join/join-seam";
import { nameJoin, sayGrade } from "../../_join/join-words";
import { inkOfDraft, keyOfCut } from "./draft-strip";
import { lookAddress } from "./look-address";
import type { PlanMove } from "./plan-state";
import { standingCut } from "./plan-words";
import styles from "./planned-cut-card.module.css";

/** One cut of the plan: what it saves, how it joins, what rest it leaves; to be heard, looked at, or done without. */
export function PlannedCutCard({
  desk,
  cut,
  others,
  number,
  weight,
  move,
}: {
  desk: Desk;
  cut: PlannedCandidate;
  /** Of the same set. */
  others: readonly PlannedCandidate[];
  number: number;
  /** Null until it is worked out. */
  weight: WeighedCut | null;
  move: Dispatch<PlanMove>;
}) {
  const ink = inkOfDraft(desk, cut);
  const standing = standingCut(desk.cuts, cut);
  const saved = cut.gaps.reduce((sum, { from, to }) => sum + to - from, 0);
  const [reason, ...reasons] = cut.reasons;
  const ends = endsOfSpan(cut);
  const hasSound = useContext(SoundContext) !== null;
  const titleId = `draft-title-${keyOfCut(cut)}`;
  return (
    <Card
      edge={ink}
      id={`draft-${keyOfCut(cut)}`}
      className={styles.card}
      tabIndex={-1}
      aria-labelledby={titleId}
    >
      <div className={styles.head}>
        <span className={styles.number} data-ink={ink} aria-hidden="true">
          {number}
        </span>
        <h3 id={titleId}>{capital(cut.name)}</h3>
        <span className={styles.saved}>
          {weight && `${sayBarCount(weight.barCount)} · `}
          <b>{sayClock(saved)} shorter</b>
        </span>
      </div>
      {standing && <p className={styles.standing}>{sayStanding(desk, standing)}</p>}
      <div className={styles.body}>
        <div>
          <p className={styles.join}>
            <JoinSeam grade={cut.grade} /> {nameJoin(desk.bars, cut)}: {sayGrade(cut.grade)}
          </p>
          {reason && <p className={styles.reason}>{reason}</p>}
          <Evidence summary="What this is judged by">
            <ul>
              {reasons.map((other) => (
                <li key={other}>{other}</li>
              ))}
              <li>
                By the tempi of the piece the bars last <b>{sayClock(saved)}</b>, repeats counted. “Look”
                opens every row of the join.
              </li>
            </ul>
          </Evidence>
        </div>
        <Rest desk={desk} weight={weight} />
      </div>
      <div className={styles.buttons}>
        {hasSound && <ListenButton small request={{ cut: spanOf(cut), cuts: cutsBeside(desk, others) }} />}
        <ButtonLink small href={lookAddress(desk.pieceId, ends, standing)}>
          Look<Spoken> at {cut.name}</Spoken>
        </ButtonLink>
        <span className={styles.room} />
        <Button small kind="bare" onClick={() => move({ kind: "leave-out", ends })}>
          Leave this one out<Spoken>: {cut.name}</Spoken>
        </Button>
        <Button small kind="bare" onClick={() => move({ kind: "keep", ends })}>
          Keep these bars<Spoken>: {cut.name}</Spoken>
        </Button>
      </div>
    </Card>
  );
}

const spanOf = ({ from, to }: PlannedCandidate) => ({ from, to });

const cutsBeside = (desk: Desk, others: readonly PlannedCandidate[]) => [
  ...agreedCuts(desk, null),
  ...others.map(spanOf),
];

/** "Proposed already: cut 2, by Matthis." */
function sayStanding(desk: Desk, standing: DeskCut): string {
  const by = sayWho(desk, personOf(desk, standing.proposedBy));
  return standing.state === "agreed"
    ? `Agreed already: cut ${standing.number}.`
    : `Proposed already by ${by}: cut ${standing.number}.`;
}

function Rest({ desk, weight }: { desk: Desk; weight: WeighedCut | null }) {
  if (weight === null) return <p className={styles.waiting}>Reading the rests…</p>;
  const { rest, soloNotesLost } = weight;
  const soloist = soloistOf(desk);
  const isLetter = desk.strip.letters.some(({ text }) => text === rest?.nextEntryLabel);
  return (
    <div>
      {rest && (
        <>
          <p className={styles.what}>
            {whose(soloist, desk.me, "The soloist’s")} rest before{" "}
            {isLetter ? (
              <RehearsalBox small text={rest.nextEntryLabel ?? ""} />
            ) : (
              (rest.nextEntryLabel ?? "the end")
            )}
          </p>
          <p className={styles.rest}>
            <span>{sayClock(rest.beforeSeconds)}</span> <Icon name="forward" small />{" "}
            {sayClock(rest.afterSeconds)}
          </p>
          <RestBar beforeSeconds={rest.beforeSeconds} afterSeconds={rest.afterSeconds} />
        </>
      )}
      {soloNotesLost.length > 0 && (
        <p className={styles.standing}>Takes {soloNotesLost.length} notes of the solo away.</p>
      )}
    </div>
  );
}
