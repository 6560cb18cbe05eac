import { beatOf } from "@/lib/score/beat-of";
import { onsetOf } from "@/lib/score/onset-of";
import type { Position } from "@/lib/score/position";
import { type Quarters, quarters, scaleQuarters, subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** The counted place of an offset in beats of the metre, from 1: "3", or "2 + 1/2" inside a beat. */
export function nameBeat(offset: Quarters, beat: Quarters): string {
  const beats = scaleQuarters(offset, beat.den, beat.num);
  const whole = Math.floor(beats.num / beats.den);
  const rest = subtractQuarters(beats, quarters(whole));
  return rest.num === 0 ? `${whole + 1}` : `${whole + 1} + ${rest.num}/${rest.den}`;
}

/**
 * "bar 85", or "bar 85 beat 3" inside a bar. The beat of an upbeat bar is counted from the bar line it leads to, so
 * that the upbeat of one quarter in 4/4 is beat 4.
 *
 * @throws RangeError outside the piece.
 */
export function namePosition(score: Score, position: Position, alwaysBeat = false): string {
  onsetOf(score, position);
  const bar = score.bars[position.barIndex];
  if (!bar) throw new RangeError(`No bar with index ${position.barIndex}`);
  if (position.offset.num === 0 && !alwaysBeat) return `bar ${bar.label}`;
  const missing = bar.isPickup ? subtractQuarters(bar.metreLength, bar.length) : quarters(0);
  const offset =
    missing.num > 0
      ? quarters(
          position.offset.num * missing.den + missing.num * position.offset.den,
          position.offset.den * missing.den,
        )
      : position.offset;
  return `bar ${bar.label} beat ${nameBeat(offset, beatOf(bar.metre))}`;
}
