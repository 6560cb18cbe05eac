"use client";

import Link from "next/link";
import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import { sayAgainstLimit } from "@/app/_ui/clock";
import { Evidence } from "@/app/_ui/evidence";
import { RunningTimeMeter } from "@/app/_ui/meter/running-time-meter";
import { inkOf } from "@/app/_ui/party";
import { sayClock } from "@/lib/score/say-clock";
import { personOf } from "./person";
import styles from "./time-panel.module.css";

/** The running time with the agreed cuts, against the limit, and everything it was computed from. */
export function TimePanel({ desk, openCut }: { desk: Desk; openCut: DeskCut | null }) {
  const { agreed, asWritten, limitSeconds } = desk;
  const hasCuts = desk.cuts.some(({ state }) => state === "agreed");
  const weighed = openCut?.state === "open" ? openCut.weight : null;
  return (
    <section className={styles.panel} aria-labelledby="time-heading">
      <h2 id="time-heading">Running time, {hasCuts ? "agreed cuts" : "no cuts agreed"}</h2>
      <p className={styles.figure}>
        {sayClock(agreed.seconds)}
        {limitSeconds !== null && <span>of {sayClock(limitSeconds)}</span>}
      </p>
      <p className={styles.say}>
        {limitSeconds === null ? (
          <>
            No limit is set. <Link href={`/pieces/${desk.pieceId}/settings#limit`}>Set one</Link>
          </>
        ) : (
          <b>{sayAgainstLimit(agreed.seconds, limitSeconds)}</b>
        )}
      </p>
      <RunningTimeMeter
        asWritten={asWritten.seconds}
        agreed={agreed.seconds}
        withOpen={
          openCut && weighed ? { label: `with cut ${openCut.number}`, seconds: weighed.runningAfter } : null
        }
        limit={limitSeconds}
        openInk={openCut ? inkOf(personOf(desk, openCut.proposedBy).role) : "graphite"}
      />
      <Evidence
        isOver
        summary={
          <>
            On stage expect {sayClock(agreed.low)} to {sayClock(agreed.high)}
          </>
        }
      >
        <TimeEvidence desk={desk} />
      </Evidence>
    </section>
  );
}

const sources = { printed: "as printed", assumed: "assumed", own: "your own" } as const;

function TimeEvidence({ desk }: { desk: Desk }) {
  const { evidence, agreed } = desk;
  return (
    <div className={styles.evidence}>
      <p>{agreed.sentence}</p>
      <h3>Tempi</h3>
      <ul>
        {evidence.tempi.map((tempo) => (
          <li key={`${tempo.barLabel} ${tempo.words} ${tempo.beats}`}>
            <b>Bar {tempo.barLabel}</b> {tempo.words && <i>{tempo.words}</i>} {tempo.beats ?? "no number"},{" "}
            {sources[tempo.source]}
          </li>
        ))}
        {evidence.tempi.length === 0 && <li>The score gives no tempo.</li>}
      </ul>
      {evidence.assumptions.length > 0 && (
        <>
          <h3>Assumed</h3>
          <ul>
            {evidence.assumptions.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </>
      )}
      <h3>Allowances</h3>
      <ul>
        <li>A fermata is held {evidence.fermataFactor} times its length.</li>
        <li>A ritardando ends at {Math.round(evidence.ritardandoTo * 100)} % of the tempo before it.</li>
      </ul>
      <h3>Your own timings</h3>
      <ul>
        {evidence.timings.map(({ name, seconds }) => (
          <li key={name}>
            <b>{name}</b> {sayClock(seconds)}
          </li>
        ))}
        {evidence.timings.length === 0 && <li>None yet. Time a section and the range narrows.</li>}
      </ul>
      {desk.may.propose && (
        <p>
          <Link href={`/pieces/${desk.pieceId}/settings#tempi`}>Change tempi, allowances and timings</Link>
        </p>
      )}
    </div>
  );
}
