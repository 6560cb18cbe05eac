import { sayClock } from "@/lib/score/say-clock";
import type { Scale } from "./scale";
import type { Stretch, StripBreath, StripCut, StripTutti } from "./strip-piece";

export interface PlayedBox {
  readonly x: number;
  readonly width: number;
  /** "plays 1:01", where there is room. */
  readonly label: string | null;
  readonly labelX: number;
  /** White notches: where the soloist breathes. */
  readonly notches: readonly number[];
  readonly stretch: Stretch;
}

/** Below this a notch would be noise. Source: design notes, "600 bars". */
const notchPixelsPerSecond = 1;
const playsPixels = 74;
/** Half the room that "plays 1:01" takes. */
const playsHalf = 33;

/** A stretch without what the cuts take out of it, in pixels; open cuts count as well, because they are drawn over it. */
function visibleParts(
  stretch: Stretch,
  cuts: readonly StripCut[],
  scale: Scale,
): { x: number; end: number }[] {
  let parts = [{ x: scale.x(stretch.from), end: scale.x(stretch.to) }];
  for (const gap of cuts.flatMap((cut) => cut.gaps)) {
    const [from, to] = [scale.x(gap.from), scale.x(gap.to)];
    parts = parts.flatMap((part) => {
      if (to <= part.x || from >= part.end) return [part];
      return [
        { x: part.x, end: Math.min(part.end, from) },
        { x: Math.max(part.x, to), end: part.end },
      ].filter((rest) => rest.end - rest.x > 0.5);
    });
  }
  return parts;
}

function widestOf(parts: readonly { x: number; end: number }[]): { x: number; end: number } | null {
  return parts.reduce<{ x: number; end: number } | null>(
    (best, part) => (best === null || part.end - part.x > best.end - best.x ? part : best),
    null,
  );
}

/** Black boxes where the solo plays. */
export function placePlayed(
  solo: readonly Stretch[],
  breaths: readonly StripBreath[],
  cuts: readonly StripCut[],
  scale: Scale,
): PlayedBox[] {
  const hasNotches = scale.pixelsPerSecond >= notchPixelsPerSecond;
  return solo.map((stretch) => {
    const x = scale.x(stretch.from);
    const end = scale.x(stretch.to);
    const room = widestOf(visibleParts(stretch, cuts, scale)) ?? { x, end: x };
    const hasLabel = room.end - room.x > playsPixels;
    const labelX = (room.x + room.end) / 2;
    const notches = breaths
      .filter((breath) => breath.at > stretch.from && breath.at < stretch.to)
      .map((breath) => scale.x(breath.at))
      .filter((at) => at - x > 3 && end - at > 3 && !(hasLabel && Math.abs(at - labelX) < playsHalf));
    return {
      x: x + 0.8,
      width: Math.max(0.8, end - x - 1.6),
      label: hasLabel ? `plays ${sayClock(stretch.to - stretch.from)}` : null,
      labelX,
      notches: hasNotches ? notches : [],
      stretch,
    };
  });
}

export interface RestBar {
  readonly x: number;
  readonly end: number;
  /** Too short for a bar with ends: one stroke. */
  readonly isStroke: boolean;
  readonly labelX: number;
  readonly label:
    | { readonly kind: "line"; readonly bars: string; readonly time: string }
    | { readonly kind: "stacked"; readonly bars: string; readonly time: string }
    | { readonly kind: "bars"; readonly bars: string }
    | null;
  readonly tutti: StripTutti;
}

/**
 * The many-bar rest of each tutti, labelled as its room allows: 76 px "24 bars · 0:52", 26 px number over time, 10 px number.
 * A cut over the middle pushes the label to the wider side that is left.
 *
 * Source: design notes, "Labels by room".
 */
export function placeRests(
  tuttis: readonly StripTutti[],
  cuts: readonly StripCut[],
  scale: Scale,
): RestBar[] {
  return tuttis.map((tutti) => {
    const x = scale.x(tutti.from) + 2;
    const end = scale.x(tutti.to) - 2;
    const room = widestOf(visibleParts(tutti, cuts, scale));
    const width = room === null ? 0 : room.end - room.x - 4;
    const labelX = room === null ? (x + end) / 2 : (room.x + room.end) / 2;
    return { x, end, isStroke: end - x <= 5, labelX, label: restLabel(tutti, width), tutti };
  });
}

function restLabel(tutti: StripTutti, width: number): RestBar["label"] {
  const time = sayClock(tutti.to - tutti.from);
  const bars = `${tutti.barCount}`;
  if (width >= 76) return { kind: "line", bars, time };
  if (width >= 26) return { kind: "stacked", bars, time };
  return width >= 10 ? { kind: "bars", bars } : null;
}
