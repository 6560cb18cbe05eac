import type { PerformedOrder } from "@/lib/score/performed-order";

/** The performance passes from one side of a place on the page to the other. */
export interface Crossing {
  /** Place in the performed order of the bar that is played after it. */
  readonly performedIndex: number;
  readonly direction: "on" | "back";
}

/**
 * For each place between two units (bars, or systems) of the printed music, when the performance crosses it: once in
 * plain music, again with every repeat that leads back over it. A jump crosses all that lies between.
 *
 * @param unitOf the unit in which a bar of the source is printed.
 * @returns crossings by the unit that follows the place.
 */
export function findCrossings(
  order: PerformedOrder,
  unitOf: (barIndex: number) => number,
): Map<number, Crossing[]> {
  const crossings = new Map<number, Crossing[]>();
  let last: number | null = null;
  for (const [performedIndex, { barIndex }] of order.bars.entries()) {
    const unit = unitOf(barIndex);
    if (last !== null && unit !== last) {
      const direction = unit > last ? "on" : "back";
      for (let place = Math.min(unit, last) + 1; place <= Math.max(unit, last); place += 1)
        crossings.set(place, [...(crossings.get(place) ?? []), { performedIndex, direction }]);
    }
    last = unit;
  }
  return crossings;
}
