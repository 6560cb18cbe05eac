import type { Scale } from "./scale";
import type { StripBar } from "./strip-piece";

export interface BarTick {
  readonly x: number;
  readonly isLong: boolean;
}

export interface BarLabel {
  readonly x: number;
  readonly text: string;
}

/** Labels stay this far apart, from left edge to left edge. */
const apartPixels = 34;
const figurePixels = 6.4;
/** A label may stand out this far at the right edge, where the sheet has its margin. */
const overhangPixels = 8;
const steps = [5, 10, 20, 50, 100, 200, 500] as const;
const tickSteps = [1, 5, 10, 50, 100] as const;
const tickApartPixels = 3;

/** The number in a printed label that is nothing but a number; null for "X1" or an empty one. */
function plainNumber(label: string): number | null {
  return /^\d+$/.test(label) ? Number(label) : null;
}

/**
 * The finest step at which labels here keep their distance, for the section round a bar: a slow section is wide and takes
 * every 5th bar, a fast one only every 20th.
 */
function stepHere(bars: readonly StripBar[], index: number, scale: Scale): number {
  const width = (from: number, to: number) => {
    const first = bars[Math.max(0, from)];
    const last = bars[Math.min(bars.length - 1, to)];
    return first && last ? scale.x(last.to) - scale.x(first.from) : 0;
  };
  const around = 5;
  const count = Math.min(bars.length - 1, index + around) - Math.max(0, index - around) + 1;
  const perBar = width(index - around, index + around) / count;
  return steps.find((step) => step * perBar >= apartPixels) ?? 1000;
}

/**
 * Which bars carry their number: those whose printed number is a multiple of the step of their section, the first, and none
 * closer than 34 px to the one before. Round numbers win over finer ones.
 *
 * Source: design notes, "Labels by room".
 */
export function placeBarLabels(bars: readonly StripBar[], scale: Scale): BarLabel[] {
  const wanted = bars.flatMap((bar, index) => {
    const number = plainNumber(bar.label);
    if (index === 0 && bar.label !== "") return [{ x: scale.x(bar.from), text: bar.label, roundness: 1000 }];
    if (number === null || number === 0 || number % stepHere(bars, index, scale) !== 0) return [];
    const roundness = [...steps].reverse().find((step) => number % step === 0) ?? 0;
    return [{ x: scale.x(bar.from), text: bar.label, roundness }];
  });
  const kept: typeof wanted = [];
  const inside = wanted.filter(
    ({ x, text }) => x + text.length * figurePixels <= scale.width + overhangPixels,
  );
  for (const label of inside.sort((a, b) => b.roundness - a.roundness || a.x - b.x)) {
    if (kept.every((other) => Math.abs(other.x - label.x) >= apartPixels)) kept.push(label);
  }
  return kept.sort((a, b) => a.x - b.x).map(({ x, text }) => ({ x, text }));
}

/** Ticks at every bar where there is room, else every 5th, 10th…; long ones under the labels. */
export function placeBarTicks(
  bars: readonly StripBar[],
  labels: readonly BarLabel[],
  scale: Scale,
): BarTick[] {
  const perBar = scale.width / Math.max(1, bars.length);
  const step = tickSteps.find((candidate) => candidate * perBar >= tickApartPixels) ?? 500;
  const labelled = new Set(labels.map((label) => label.x));
  return bars.flatMap((bar, index) => {
    const x = scale.x(bar.from);
    const isLong = labelled.has(x);
    const number = plainNumber(bar.label);
    const isOnStep = step === 1 || index === 0 || (number !== null && number % step === 0);
    return isLong || isOnStep ? [{ x, isLong }] : [];
  });
}
