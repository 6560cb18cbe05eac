"use client";

import type { SourcePreview } from "@/app/_data/source-preview";
import { Evidence } from "@/app/_ui/evidence";
import { sayClock } from "@/lib/score/say-clock";
import styles from "./bring-piece.module.css";
import { FoundStrip } from "./found-strip";

type Notice = SourcePreview["notices"][number];

/** "Oboe, bar 7: ", as far as it is known. */
function sayPlace({ partName, barLabel }: Notice): string {
  const place = [partName, barLabel !== null && `bar ${barLabel}`].filter(Boolean).join(", ");
  return place && `${place}: `;
}

/** What was read in a file: the tuttis in their places, the running time, and what was odd. */
export function Found({ preview }: { preview: SourcePreview }) {
  const { tuttis, runningTime, bars, performed, assumptions, notices } = preview;
  const bar = tuttis.reduce((sum, tutti) => sum + tutti.barCount, 0);
  const long = tuttis.reduce((sum, tutti) => sum + tutti.seconds, 0);
  return (
    <div className={styles.found}>
      <p>
        Found:{" "}
        <b>{tuttis.length === 0 ? "no tutti" : `${tuttis.length} tutti, ${bar} bars, ${sayClock(long)}`}</b>{" "}
        of {sayClock(runningTime.seconds)}, in {bars.count} bars
        {performed.barCount > bars.count && ` (${performed.barCount} with repeats)`}. Check the ones you know.
      </p>
      <FoundStrip piece={preview.strip} />
      <Evidence summary="How the time was found">
        <p>{runningTime.sentence}</p>
        <ul>
          {assumptions.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
        <p>Played order: {performed.order}.</p>
      </Evidence>
      {notices.length > 0 && (
        <Evidence
          summary={notices.length === 1 ? "One remark on the file" : `${notices.length} remarks on the file`}
        >
          <ul>
            {notices.slice(0, 40).map((notice, index) => (
              // Remarks are only listed, never moved, and two may read the same.
              // biome-ignore lint/suspicious/noArrayIndexKey: see above
              <li key={index}>
                {sayPlace(notice)}
                {notice.sentence}
              </li>
            ))}
          </ul>
          {notices.length > 40 && <p>And {notices.length - 40} more.</p>}
        </Evidence>
      )}
    </div>
  );
}
