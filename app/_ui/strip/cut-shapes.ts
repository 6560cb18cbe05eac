import { sayClock } from "@/lib/score/say-clock";
import type { Scale } from "./scale";
import type { StripCut } from "./strip-piece";

export interface CutShape {
  readonly x: number;
  readonly end: number;
  readonly middle: number;
  /** Half the side of the number plate, or its radius. */
  readonly plate: number;
  /** Whether there is room for Vi– before it and for –de after it. */
  readonly hasVi: boolean;
  readonly hasDe: boolean;
  /** "−0:26", where there is room. */
  readonly saved: string | null;
  /** Closed to a seam: agreed, in the view as it is played. */
  readonly isClosed: boolean;
  /** Which of the cut's gaps this is; the number stands on each. */
  readonly gapIndex: number;
  readonly cut: StripCut;
}

/** Room that Vi– or –de takes. */
const wordPixels = 27;

/** One shape for each stretch that a cut takes out. Words that would run into those of a neighbour are left out. */
export function placeCuts(cuts: readonly StripCut[], scale: Scale, isAsPlayed: boolean): CutShape[] {
  const edges = cuts.flatMap((cut) =>
    cut.gaps.map((gap) => ({ x: scale.x(gap.from), end: scale.x(gap.to) })),
  );
  const isFreeBefore = (x: number) => edges.every(({ end }) => end > x + 0.5 || x - end >= 2 * wordPixels);
  const isFreeAfter = (end: number) => edges.every(({ x }) => x < end - 0.5 || x - end >= wordPixels);
  return cuts.flatMap((cut) =>
    cut.gaps.map((gap, gapIndex) => {
      const x = scale.x(gap.from);
      const end = scale.x(gap.to);
      return {
        x,
        end,
        middle: (x + end) / 2,
        plate: end - x > 20 ? 10 : 8,
        hasVi: end - x >= 8 && isFreeBefore(x),
        hasDe: end - x >= 8 && isFreeAfter(end),
        saved: end - x > 34 ? `−${sayClock(gap.to - gap.from)}` : null,
        isClosed: isAsPlayed && cut.state === "agreed",
        gapIndex,
        cut,
      };
    }),
  );
}

const round = (value: number) => Math.round(value * 10) / 10;

/**
 * The bridge over a cut, as an SVG path: a slur from edge to edge.
 *
 * @param y where it stands, `height` how far its handles rise; a `thickness` over 0 gives the closed, filled slur of an
 * agreed cut.
 */
export function bridgePath(from: number, to: number, y: number, height: number, thickness: number): string {
  const handle = Math.min((to - from) * 0.32, 40) * 0.5;
  const over = (rise: number, a: number, b: number, sign: number) =>
    `C${round(a + sign * handle)} ${round(y - rise)} ${round(b - sign * handle)} ${round(y - rise)} ${round(b)} ${y}`;
  const upper = `M${round(from)} ${y}${over(height, from, to, 1)}`;
  return thickness === 0 ? upper : `${upper}${over(height + thickness, to, from, -1)}Z`;
}
