/** A running time by the numbers, and the range in which performances of it lie. Seconds. */
export interface MeterTime {
  readonly seconds: number;
  readonly low: number;
  readonly high: number;
}

export type MeterKind = "written" | "agreed" | "open";

export interface LargeMeterRow {
  readonly kind: MeterKind;
  /** The bar's end: by the numbers. */
  readonly end: number;
  /** Right edge of the time: by the bar's end, or by the limit line where that would run through the figures. */
  readonly timeX: number;
  /** The range on stage. */
  readonly low: number;
  readonly high: number;
  /** The words of the range stand in its band; else there is no room for them. */
  readonly hasRangeWords: boolean;
}

export interface LargeMeterLayout {
  /** Left edge in seconds: over 0 when the bars are drawn from a broken edge. */
  readonly from: number;
  readonly rows: readonly LargeMeterRow[];
  /** Null without a limit. */
  readonly limitX: number | null;
  /** Where the word over the limit line stands, so that it stays in the drawing. */
  readonly limitWordsX: number;
  readonly ticks: readonly { readonly x: number; readonly seconds: number }[];
}

/** A bar keeps this much of the drawing, so that its time stands in it. */
const shortestBar = 96;
const rangeWordsPixels = 96;
const limitWordsPixels = 80;
/** Minutes of the axis are no nearer to each other. */
const tickPixels = 56;
const tickSteps = [15, 30, 60, 120, 300, 600, 1800];
const endMargin = 10;
/** From the time's right edge to the line that it stands before, and the room that its figures take. */
const [timeMargin, timePixels] = [9, 38];

function placeTime(end: number, limitX: number | null): number {
  const isStruck =
    limitX !== null && limitX > end - timeMargin - timePixels - 4 && limitX < end - timeMargin + 4;
  const before = (limitX ?? 0) - timeMargin;
  return isStruck && before > timePixels ? before : end - timeMargin;
}

/** Drawn from nothing where the proportion would still show the differences; else from a broken edge. */
function leftEdge(least: number, most: number, width: number): number {
  const share = shortestBar / Math.max(width - endMargin, shortestBar + 1);
  const from = (least - share * most) / (1 - share);
  return from > 60 ? Math.floor(from / 15) * 15 : 0;
}

/**
 * The large meter on one scale: each time by the numbers as a bar, its range as a band beyond it, the limit as a line through
 * all.
 *
 * @param width of the drawing in pixels.
 */
export function layOutLargeMeter(
  rows: readonly { readonly kind: MeterKind; readonly time: MeterTime }[],
  limit: number | null,
  width: number,
): LargeMeterLayout {
  const limits = limit === null ? [] : [limit];
  const least = Math.min(...rows.map(({ time }) => time.seconds), ...limits);
  const most = Math.max(...rows.map(({ time }) => Math.max(time.high, time.seconds)), ...limits, least + 1);
  const from = leftEdge(Math.max(0, least), most, width);
  const scale = (width - endMargin) / (most - from);
  const x = (seconds: number) => Math.max(0, (seconds - from) * scale);
  const limitX = limit === null ? null : x(limit);
  return {
    from,
    rows: rows.map(({ kind, time }) => ({
      kind,
      end: Math.max(2, x(time.seconds)),
      timeX: placeTime(Math.max(2, x(time.seconds)), limitX),
      low: x(time.low),
      high: x(time.high),
      hasRangeWords: x(time.high) - x(time.low) >= rangeWordsPixels,
    })),
    limitX,
    limitWordsX: Math.min(Math.max(limitX ?? 0, limitWordsPixels / 2), width - limitWordsPixels / 2),
    ticks: layTicks(from, most, x, scale),
  };
}

function layTicks(from: number, to: number, x: (seconds: number) => number, scale: number) {
  const step = tickSteps.find((seconds) => seconds * scale >= tickPixels) ?? 3600;
  const first = Math.ceil(from / step) * step;
  const count = Math.max(0, Math.floor((to - first) / step) + 1);
  return Array.from({ length: count }, (_, index) => first + index * step).map((seconds) => ({
    seconds,
    x: x(seconds),
  }));
}
