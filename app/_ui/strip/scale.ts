import type { Stretch } from "./strip-piece";

/** Seconds to pixels and back: time in proportion, so that a long tutti looks long. */
export interface Scale {
  readonly width: number;
  readonly pixelsPerSecond: number;
  /** Left edge of the moment `second`; a moment inside a closed stretch is drawn where that stretch closed. */
  readonly x: (second: number) => number;
  /** The moment at `x`; outside the strip, the nearest end. */
  readonly secondAt: (x: number) => number;
}

/**
 * @param totalSeconds length of the piece as written.
 * @param width of the drawing, in pixels.
 * @param closed stretches taken out of the drawing ("as played"), in time order and apart.
 * @throws RangeError if nothing is left to draw or there is no room.
 */
export function makeScale(totalSeconds: number, width: number, closed: readonly Stretch[] = []): Scale {
  const gone = closed.reduce((sum, stretch) => sum + stretch.to - stretch.from, 0);
  if (!(totalSeconds - gone > 0) || !(width > 0)) {
    throw new RangeError(`Nothing to draw: ${totalSeconds} s without ${gone} s on ${width} px`);
  }
  const pixelsPerSecond = width / (totalSeconds - gone);
  const goneBefore = (second: number) =>
    closed.reduce((sum, s) => sum + Math.max(0, Math.min(second, s.to) - s.from), 0);
  const clamp = (second: number) => Math.min(Math.max(second, 0), totalSeconds);
  return {
    width,
    pixelsPerSecond,
    x: (second) => (clamp(second) - goneBefore(clamp(second))) * pixelsPerSecond,
    secondAt: (x) => {
      let second = Math.min(Math.max(x, 0), width) / pixelsPerSecond;
      for (const stretch of closed) if (second >= stretch.from) second += stretch.to - stretch.from;
      return clamp(second);
    },
  };
}
