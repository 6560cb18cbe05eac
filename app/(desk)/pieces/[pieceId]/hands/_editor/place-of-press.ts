import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import type { DrawnPassage } from "@/lib/engrave/passage/drawn-passage";
import type { StaffPlace } from "@/lib/rewrites/editing/add-note";
import { quartersAsNumber, readQuarters, scaleQuarters, writeQuarters } from "@/lib/score/quarters";
import type { EventBox, PointOnSystem } from "./measure-events";
import { pitchAtHeight } from "./staff-height";

/** Where and what a press on the staves means, when a note is added there. */
export interface PressedNote {
  readonly place: StaffPlace;
  readonly pitch: RewritePitch;
}

/**
 * The note that a press on a staff stands for: at the nearest place where anything begins in that bar, else on the nearest
 * beat; as high as it was pressed. Null beside the bars.
 */
export function noteAtPress(
  passage: DrawnPassage,
  system: DrawnPassage["systems"][number],
  boxes: readonly EventBox[],
  point: PointOnSystem,
): PressedNote | null {
  const x = (point.x / point.width) * system.width;
  const y = (point.y / point.height) * system.height;
  const bar = system.bars.find((each) => each.x <= x && x <= each.x + each.width);
  if (!bar) return null;
  const staves = bar.staves.map((staff, index) => ({ ...staff, number: index + 1 }));
  const away = ({ top, bottom }: { top: number; bottom: number }) => Math.max(top - y, 0, y - bottom);
  const [first, ...others] = staves;
  if (!first) return null;
  const staff = others.reduce((best, other) => (away(other) < away(best) ? other : best), first);
  const offset = nearestOffset(boxes, bar.barIndex, point) ?? nearestBeat(passage, bar, x);
  const place = { barIndex: bar.barIndex, offset, staff: staff.number };
  // Four spaces of two steps each.
  const steps = Math.round((staff.bottom - y) / ((staff.bottom - staff.top) / 8));
  return { place, pitch: pitchAtHeight(passage, place, steps) };
}

/** Near enough to be meant, in CSS pixels. */
const nearPixels = 20;

function nearestOffset(
  boxes: readonly EventBox[],
  barIndex: number,
  { x, width }: PointOnSystem,
): string | null {
  const near = boxes
    .filter(({ event, heads }) => event.at.barIndex === barIndex && heads.length > 0)
    .map(({ event, left, right }) => ({
      offset: event.at.offset,
      away: Math.abs(((left + right) / 200) * width - x),
    }))
    .sort((a, b) => a.away - b.away)[0];
  return near && near.away <= nearPixels ? near.offset : null;
}

function nearestBeat(
  { bars }: DrawnPassage,
  box: DrawnPassage["systems"][number]["bars"][number],
  x: number,
): string {
  const bar = bars.find(({ barIndex }) => barIndex === box.barIndex);
  const [length, beat] = [readQuarters(bar?.length ?? ""), readQuarters(bar?.beat ?? "")];
  if (!length || !beat || beat.num === 0) return "0";
  const count = Math.max(1, Math.ceil(quartersAsNumber(length) / quartersAsNumber(beat)));
  const share = Math.min(0.999, Math.max(0, (x - box.x) / box.width));
  return writeQuarters(scaleQuarters(beat, Math.floor(share * count)));
}
