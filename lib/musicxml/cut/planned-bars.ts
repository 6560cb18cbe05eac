import {
  addQuarters,
  compareQuarters,
  isEqualQuarters,
  noQuarters,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { KeptSpan } from "./kept-spans";

/** A stretch of one bar of the source. */
export interface BarSlice {
  readonly span: number;
  readonly barIndex: number;
  readonly from: Quarters;
  readonly to: Quarters;
}

/** A bar of the cut piece: one stretch, or two or more that a cut inside the bar brought together. */
export interface PlannedBar {
  readonly slices: readonly BarSlice[];
}

export const sliceLength = (slice: BarSlice): Quarters => subtractQuarters(slice.to, slice.from);

/**
 * The bars of the cut piece. Two part bars at a join become one bar when they are parts of the same bar, or when both
 * have the metre's length together; otherwise they stay two short bars.
 *
 * @param lengths of the bars of the source.
 * @param metreLengths what the metre asks for in each; null in senza misura.
 */
export function planBars(
  spans: readonly KeptSpan[],
  lengths: readonly Quarters[],
  metreLengths: readonly (Quarters | null)[],
): PlannedBar[] {
  const bars: PlannedBar[] = [];
  for (const slice of spans.flatMap((span, index) => sliceSpan(span, index, lengths))) {
    const last = bars.at(-1);
    if (last && isOneBar(last, slice, lengths, metreLengths)) bars[bars.length - 1] = joinBar(last, slice);
    else bars.push({ slices: [slice] });
  }
  return bars;
}

function sliceSpan(span: KeptSpan, index: number, lengths: readonly Quarters[]): BarSlice[] {
  const slices: BarSlice[] = [];
  for (let barIndex = span.from.barIndex; barIndex <= span.to.barIndex; barIndex += 1) {
    const length = lengths[barIndex];
    const isLast = barIndex === span.to.barIndex;
    if (length === undefined || (isLast && span.to.offset.num === 0)) continue;
    const from = barIndex === span.from.barIndex ? span.from.offset : noQuarters;
    slices.push({ span: index, barIndex, from, to: isLast ? span.to.offset : length });
  }
  return slices;
}

const joinBar = (bar: PlannedBar, slice: BarSlice): PlannedBar => ({ slices: [...bar.slices, slice] });

function isOneBar(
  bar: PlannedBar,
  slice: BarSlice,
  lengths: readonly Quarters[],
  metreLengths: readonly (Quarters | null)[],
): boolean {
  const last = bar.slices.at(-1);
  if (!last || last.span === slice.span || slice.from.num === 0) return false;
  if (last.barIndex === slice.barIndex) return true;
  const endsInside = compareQuarters(last.to, lengths[last.barIndex] ?? last.to) < 0;
  const metre = metreLengths[last.barIndex];
  const nextMetre = metreLengths[slice.barIndex];
  if (!endsInside || !metre || !nextMetre || !isEqualQuarters(metre, nextMetre)) return false;
  return isEqualQuarters(joinedLength([...bar.slices, slice]), metre);
}

export function joinedLength(slices: readonly BarSlice[]): Quarters {
  return slices.reduce((sum, slice) => addQuarters(sum, sliceLength(slice)), noQuarters);
}
