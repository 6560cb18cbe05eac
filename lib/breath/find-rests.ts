import type { CutSpan } from "@/lib/score/cut-span";
import { positionPlayedFrom, positionPlayedUpTo } from "@/lib/score/performed-positions";
import type { Position } from "@/lib/score/position";
import { cutRests, measureRest, readRests } from "@/lib/score/rest-left";
import type { Score } from "@/lib/score/score";
import { type Seconds, seconds } from "@/lib/score/seconds";
import type { TempoMap } from "@/lib/score/tempo-map";

/** A rest of the soloist without and with cuts. */
export interface FoundRest {
  /** Where the soloist stops and where the next entry stands, without cuts. */
  readonly from: Position;
  readonly to: Position;
  readonly seconds: { readonly before: Seconds; readonly after: Seconds };
  /** Wholly silent bars, as players count them. */
  readonly bars: { readonly before: number; readonly after: number };
  /** Null where the piece ends in silence. */
  readonly nextNoteId: string | null;
}

/**
 * Every rest of the soloist of `shortest` seconds or more, in performed order, and what cuts leave of it.
 *
 * @throws RangeError if a cut cannot be made.
 */
export function findRestsUnderCuts(
  score: Score,
  map: TempoMap,
  cuts: readonly CutSpan[],
  shortest: number,
): FoundRest[] {
  const reading = readRests(score, map);
  const [whole, cut] = [cutRests(reading, []), cutRests(reading, cuts)];
  return reading.silences.flatMap((silence): FoundRest[] => {
    const before = measureRest(reading, whole, silence);
    if (before.milliseconds < Math.round(1000 * shortest)) return [];
    const after = measureRest(reading, cut, silence);
    return [
      {
        from: positionPlayedFrom(reading.order, silence.from),
        to: positionPlayedUpTo(score, reading.order, silence.to),
        seconds: { before: seconds(before.milliseconds / 1000), after: seconds(after.milliseconds / 1000) },
        bars: { before: before.barCount, after: after.barCount },
        nextNoteId: silence.nextNoteId,
      },
    ];
  });
}
