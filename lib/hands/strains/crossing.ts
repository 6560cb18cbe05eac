import type { HandStroke } from "../hand-stroke";
import type { Found } from "./found";

/** Hands in one another's way are a nuisance; by itself it makes no place awkward. Ours. */
const [crossedLoad, sameKeyLoad] = [0.6, 0.8];

/** Where the left hand strikes above or on the right hand's lowest key at the same moment. */
export function findCrossing(left: readonly HandStroke[], right: readonly HandStroke[]): Found | null {
  const rightAt = new Map(right.map((stroke) => [stroke.seconds, stroke]));
  let worst: Found | null = null;
  for (const stroke of left) {
    const other = rightAt.get(stroke.seconds);
    if (stroke.isBefore || !other) continue;
    const overlap = stroke.highest - other.lowest;
    if (overlap < 0) continue;
    const shared = stroke.notes.some(({ midi }) => other.notes.some((note) => note.midi === midi));
    const load = shared ? sameKeyLoad : crossedLoad;
    if (load > (worst?.load ?? 0)) {
      const about = { kind: "crossing", hand: "left", load, isTimed: false } as const;
      worst = { ...about, figure: overlap, limit: 0, strokes: [stroke, other] };
    }
  }
  return worst;
}
