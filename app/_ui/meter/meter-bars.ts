import { sayClock } from "@/lib/score/say-clock";

export interface MeterInput {
  /** All in seconds. */
  readonly asWritten: number;
  readonly agreed: number;
  /** With the cut whose card is open; null when none is. */
  readonly withOpen: { readonly label: string; readonly seconds: number } | null;
  readonly limit: number | null;
}

export interface MeterBar {
  readonly kind: "written" | "agreed" | "open";
  readonly label: string;
  readonly time: string;
  readonly width: number;
  /** The words stand in the bar; else beside its end. */
  readonly isInside: boolean;
  /** Right edge of the time: the bar's end, or the limit line where that would run through the figures. */
  readonly timeX: number;
  /** Where words beside the bar begin: after its end, or after the limit line where that would run through them. */
  readonly besideX: number;
}

export interface MeterBars {
  readonly bars: readonly MeterBar[];
  /** Left edge of the drawing in seconds: over 0 when the bars are drawn from a broken edge. */
  readonly from: number;
  /** Null without a limit. */
  readonly limitX: number | null;
}

const letterPixels = 6.4;
const nearLimit = 60;
const afterMost = 12;

/**
 * The bars of the running-time meter on one scale. Within a minute of the limit the bars are drawn from a broken edge a
 * minute before it, so that eight seconds show; further away, from nothing, so that their proportion is true.
 *
 * @param width of the drawing in pixels.
 */
export function layOutMeter({ asWritten, agreed, withOpen, limit }: MeterInput, width: number): MeterBars {
  const shown = [
    asWritten,
    agreed,
    ...(withOpen ? [withOpen.seconds] : []),
    ...(limit === null ? [] : [limit]),
  ];
  const [least, most] = [Math.min(...shown), Math.max(...shown)];
  const isNear = limit !== null && Math.abs(agreed - limit) <= nearLimit;
  const from = isNear ? Math.max(0, Math.min(least - nearLimit / 2, limit - nearLimit)) : 0;
  const to = Math.max(most, from + 1) + afterMost * ((most - from) / width);
  const x = (seconds: number) => ((seconds - from) / (to - from)) * width;
  const limitX = limit === null ? null : x(limit);
  const bar = (kind: MeterBar["kind"], label: string, seconds: number): MeterBar => {
    const time = sayClock(seconds);
    const room = (label.length + time.length + 2) * letterPixels + 12;
    const end = Math.max(2, x(seconds));
    const isStruck = limitX !== null && end > limitX && end - limitX < time.length * letterPixels + 10;
    const isCrossed = limitX !== null && limitX >= end && limitX < end + room;
    return {
      ...{ kind, label, time, width: end, isInside: end >= room },
      timeX: (isStruck ? limitX : end) - 6,
      besideX: (isCrossed && limitX + room < width ? limitX + 2 : end) + 5,
    };
  };
  return {
    from,
    limitX,
    bars: [
      bar("written", "as written", asWritten),
      bar("agreed", "agreed", agreed),
      ...(withOpen ? [bar("open", withOpen.label, withOpen.seconds)] : []),
    ],
  };
}
