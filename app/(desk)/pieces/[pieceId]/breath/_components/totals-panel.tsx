"use client";

import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import { Evidence } from "@/app/_ui/evidence";
import { nameBars } from "@/app/_ui/name-span";
import { RehearsalBox } from "@/app/_ui/rehearsal-box";
import type { BreathReport } from "@/lib/breath/assess-breath";
import { sayClock } from "@/lib/score/say-clock";
import { sumBreath } from "./breath-totals";
import { sayEntry } from "./name-entry";
import { mostLost, type RestRow } from "./rest-rows";
import { sayAbout } from "./say-breath";
import styles from "./totals-panel.module.css";

/** Playing and resting in the whole piece, the longest stretch, and the rest that loses most. */
export function TotalsPanel({
  desk,
  report,
  rows,
  withCut,
  problem,
}: {
  desk: Desk;
  /** Null while it is worked out, or without a solo part. */
  report: BreathReport | null;
  rows: readonly RestRow[] | null;
  /** The open proposal that is looked at. */
  withCut: DeskCut | null;
  problem: string | null;
}) {
  const heading = `Playing and resting, ${withCut ? `with cut ${withCut.number}` : "agreed cuts"}`;
  if (!report) {
    return (
      <section className={styles.panel} aria-label="Playing and resting">
        <h2>{heading}</h2>
        <p className={styles.wait}>{problem ?? (rows ? "The file has no solo part." : "Working it out.")}</p>
      </section>
    );
  }
  const { plays, rests } = sumBreath(report);
  const { longest, preferences, playToRest } = report;
  const lost = rows && mostLost(rows);
  const played = `${(100 * plays) / Math.max(1, plays + rests)}%`;
  return (
    <section className={styles.panel} aria-label="Playing and resting">
      <h2>{heading}</h2>
      <div className={styles.figures}>
        <p>
          <b>{sayClock(plays)}</b> plays
        </p>
        <p>
          <b>{sayClock(rests)}</b> rests
        </p>
      </div>
      <div className={styles.meter} aria-hidden="true">
        <span style={{ width: played }} />
        <i />
      </div>
      {longest && (
        <p className={styles.say}>
          <b>
            Longest on one breath: {sayAbout(longest.seconds)}, {nameStretch(desk, longest)}
          </b>
          {preferences.comfortableSeconds !== null &&
            (longest.seconds > preferences.comfortableSeconds
              ? `: ${sayAbout(longest.seconds - preferences.comfortableSeconds)} more than the long breath`
              : `: within the long breath of ${sayAbout(preferences.comfortableSeconds)}`)}
        </p>
      )}
      {lost && (
        <p className={styles.lost}>
          Most rest lost: before{" "}
          {lost.row.entry.isLetter ? (
            <RehearsalBox small text={lost.row.entry.text} />
          ) : (
            sayEntry(lost.row.entry)
          )}
          , {sayClock(lost.seconds)}
          {lost.row.openSeconds !== null && " if the open proposal is agreed"}.
        </p>
      )}
      <Evidence summary="What this is computed from" isOver>
        <div className={styles.evidence}>
          <p>
            By the tempi of the piece. A rest of {sayAbout(preferences.catchSeconds)} and more is a breath;
            shorter ones count as playing.
          </p>
          <p>
            Hardest {sayClock(preferences.windowSeconds)}: bars {playToRest.firstBarLabel}–
            {playToRest.lastBarLabel}, plays {sayClock(playToRest.playedSeconds)}, rests{" "}
            {sayClock(playToRest.restedSeconds)}.
          </p>
          {preferences.restPerPlayed !== null && (
            <p>
              {playToRest.tooHard.length === 0
                ? "The wished rest is kept everywhere."
                : `The wished rest is not kept in ${playToRest.tooHard.length} ${
                    playToRest.tooHard.length === 1 ? "stretch" : "stretches"
                  }: ${playToRest.tooHard
                    .map(
                      ({ startSeconds, endSeconds }) => `${sayClock(startSeconds)}–${sayClock(endSeconds)}`,
                    )
                    .join(", ")}.`}
            </p>
          )}
          <p>Guides, not medical advice: pain, numbness or voice trouble is a reason to stop and ask.</p>
        </div>
      </Evidence>
    </section>
  );
}

function nameStretch({ bars }: Desk, { from, to }: NonNullable<BreathReport["longest"]>): string {
  const lastBar = to.offset.num === 0 ? Math.max(from.barIndex, to.barIndex - 1) : to.barIndex;
  return nameBars(bars, { firstBar: from.barIndex, lastBar });
}
