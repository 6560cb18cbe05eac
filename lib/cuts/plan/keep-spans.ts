import { pieceLength } from "@/lib/score/piece-length";
import type { Position } from "@/lib/score/position";
import { positionAt } from "@/lib/score/position-at";
import { noQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { KeepSpan } from "./cut-candidate";

/** The start of a bar, or the end of the piece behind the last one. */
function startOfBar(score: Score, barIndex: number): Position {
  return barIndex < score.bars.length
    ? { barIndex, offset: noQuarters }
    : positionAt(score, pieceLength(score));
}

/**
 * The last bars before an entry: what the soloist counts on to come in. Whole bars before the bar of the entry, and that
 * bar up to the entry itself.
 *
 * @param name of the entry, as in "letter C".
 * @throws RangeError if `barCount` is no positive whole number.
 */
export function keepBarsBefore(score: Score, entry: Position, barCount: number, name: string): KeepSpan {
  if (!Number.isInteger(barCount) || barCount < 1) throw new RangeError(`Not a number of bars: ${barCount}`);
  const from = startOfBar(score, Math.max(0, entry.barIndex - barCount));
  const bars = barCount === 1 ? "the last bar" : `the last ${barCount} bars`;
  return { from, to: entry, why: `${bars} before ${name}` };
}

/** The bar of a rehearsal mark, so that both players can still find it; null when no part has such a mark. */
export function keepRehearsalMark(score: Score, mark: string): KeepSpan | null {
  for (const part of score.parts) {
    for (const direction of part.directions) {
      if (direction.kind !== "rehearsal" || direction.text !== mark) continue;
      const from = startOfBar(score, direction.barIndex);
      return { from, to: startOfBar(score, direction.barIndex + 1), why: `the bar of mark ${mark}` };
    }
  }
  return null;
}
