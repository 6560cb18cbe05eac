import type { RewriteEvent, RewritePitch } from "@/lib/edition/rewrite-terms";
import type { DrawnEvent } from "./find-drawn";

/** In percent of the width and the height of the system. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Where an event is drawn on its system, and each of its note heads. */
export interface EventBox extends Box {
  readonly event: RewriteEvent;
  readonly heads: readonly (Box & { readonly id: string; readonly pitch: RewritePitch })[];
}

/** Measures a drawing that stands in the page; events that are not on this system are left out. */
export function measureEvents(drawing: SVGSVGElement, drawn: readonly DrawnEvent[]): EventBox[] {
  const frame = drawing.getBoundingClientRect();
  if (frame.width === 0 || frame.height === 0) return [];
  const measure = (element: Element): Box => {
    const { left, right, top, bottom } = element.getBoundingClientRect();
    const across = (x: number) => (100 * (x - frame.left)) / frame.width;
    const down = (y: number) => (100 * (y - frame.top)) / frame.height;
    return { left: across(left), right: across(right), top: down(top), bottom: down(bottom) };
  };
  const find = (id: string) => drawing.querySelector(`[id="${CSS.escape(id)}"]`);
  return drawn.flatMap(({ event, notes, restIds }): EventBox[] => {
    const heads = notes.flatMap(({ id, pitch }) => {
      const head = find(id)?.querySelector(".notehead");
      return head ? [{ id, pitch, ...measure(head) }] : [];
    });
    const rests = restIds.flatMap((id) => {
      const rest = find(id);
      return rest ? [measure(rest)] : [];
    });
    const all = [...heads, ...rests];
    return all.length === 0 ? [] : [{ event, heads, ...around(all) }];
  });
}

function around(boxes: readonly Box[]): Box {
  return {
    left: Math.min(...boxes.map(({ left }) => left)),
    right: Math.max(...boxes.map(({ right }) => right)),
    top: Math.min(...boxes.map(({ top }) => top)),
    bottom: Math.max(...boxes.map(({ bottom }) => bottom)),
  };
}

/** A point of the system in CSS pixels, and how large the system is. */
export interface PointOnSystem {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function distance({ left, right, top, bottom }: Box, { x, y, width, height }: PointOnSystem): number {
  const [l, r, t, b] = [
    (left * width) / 100,
    (right * width) / 100,
    (top * height) / 100,
    (bottom * height) / 100,
  ];
  return Math.hypot(Math.max(l - x, 0, x - r), Math.max(t - y, 0, y - b));
}

/** A finger needs 44 pixels: what is farther than half of that is not meant. */
const reach = 22;

/** The event nearest to a point, and the nearest of its heads; null when none is near. */
export function nearestEvent(
  boxes: readonly EventBox[],
  point: PointOnSystem,
): { readonly box: EventBox; readonly pitch: RewritePitch | null } | null {
  const box = nearest(boxes, point);
  if (!box || distance(box, point) > reach) return null;
  return { box, pitch: nearest(box.heads, point)?.pitch ?? null };
}

function nearest<T extends Box>(boxes: readonly T[], point: PointOnSystem): T | null {
  const [first, ...others] = boxes;
  if (!first) return null;
  return others.reduce(
    (best, other) => (centreDistance(other, point) < centreDistance(best, point) ? other : best),
    first,
  );
}

/** Inside of two boxes at once, the one whose middle is nearer. */
function centreDistance(box: Box, point: PointOnSystem): number {
  const x = ((box.left + box.right) / 200) * point.width;
  const y = ((box.top + box.bottom) / 200) * point.height;
  return distance(box, point) * 1000 + Math.hypot(x - point.x, y - point.y);
}
