import { sayAgainstLimit } from "@/app/_ui/clock";
import { Sheet } from "@/app/_ui/sheet";
import type { ProgrammeSum } from "@/lib/edition/sum-programme";
import { sayClock } from "@/lib/score/say-clock";
import type { OwnProgramme } from "@/lib/store/programmes/programme-record";
import styles from "./programme.module.css";

/** All of it on one clock, with an honest range, against the limit. */
export function ProgrammeTime({
  sum,
  own: { limitSeconds, stopsBetween, remarks },
  isEmpty,
}: {
  sum: ProgrammeSum;
  own: OwnProgramme;
  isEmpty: boolean;
}) {
  const isPlayed = sum.realSeconds !== null;
  return (
    <Sheet className={styles.time} aria-labelledby="in-all">
      <h2 id="in-all">{isPlayed ? "Played in" : "In all"}</h2>
      <p className={styles.large}>
        {sayClock(sum.seconds)} {limitSeconds !== null && <span>of {sayClock(limitSeconds)}</span>}
      </p>
      {limitSeconds !== null && !isEmpty && (
        <p className={styles.against}>{sayAgainstLimit(sum.seconds, limitSeconds)}</p>
      )}
      <ul className={styles.why}>
        {!isPlayed && sum.high > sum.low && (
          <li>
            Expect {sayClock(sum.low)} to {sayClock(sum.high)} on stage.
            {limitSeconds !== null && sum.high > limitSeconds && sum.seconds <= limitSeconds && (
              <> At the slow end it is {sayAgainstLimit(sum.high, limitSeconds)}.</>
            )}
          </li>
        )}
        <li>
          {stopsBetween
            ? "The clock stops between the pieces."
            : `Of that ${sayClock(sum.gapSeconds)} between the pieces. What comes before the first one is not counted.`}
        </li>
        {sum.unknown > 0 && (
          <li>
            {sum.unknown === 1 ? "The time of one entry is" : `The times of ${sum.unknown} entries are`} not
            known here, and not in the sum.
          </li>
        )}
      </ul>
      {remarks && <p className={styles.remarks}>{remarks}</p>}
    </Sheet>
  );
}
