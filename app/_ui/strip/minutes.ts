import { sayClock } from "@/lib/score/say-clock";

export interface MinuteMark {
  readonly x: number;
  /** Null where there is room for the tick only. */
  readonly text: string | null;
}

const steps = [15, 30, 60, 120, 300, 600, 1800] as const;
const apartPixels = 50;
/** Room that the total at the right end takes. */
const endPixels = 62;

/**
 * Clock marks under the strip, and the total at its end.
 *
 * @param totalSeconds what is drawn, so without what is closed.
 * @param covered pixels under the view frame's own label, where no figure is written.
 */
export function placeMinutes(
  totalSeconds: number,
  width: number,
  covered: { from: number; to: number } | null,
): MinuteMark[] {
  const perSecond = width / totalSeconds;
  const step = steps.find((candidate) => candidate * perSecond >= apartPixels) ?? 3600;
  const marks: MinuteMark[] = [];
  for (let second = 0; second <= totalSeconds; second += step) {
    const x = second * perSecond;
    const isUnder = covered !== null && x + 30 > covered.from && x < covered.to;
    const isAtEnd = x > width - endPixels && second > 0;
    marks.push({ x, text: isUnder || isAtEnd ? null : sayClock(second) });
  }
  return marks;
}
