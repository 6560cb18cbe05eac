import { comparePositions, type Position } from "@/lib/score/position";
import { child, childElements, childrenNamed, element, type XmlElement } from "../xml-tree";
import type { Mending } from "./mending";
import { eventsInTime, type PartEvent } from "./part-events";

/** Marks that set a level, unlike an accent such as `sf` or `fp`. */
const level = /^(p{1,6}|f{1,6}|mp|mf)$/;

interface Loudness {
  readonly at: Position;
  readonly event: PartEvent;
  readonly mark: string;
}

/** Writes the loudness again where a span starts, when it was set inside the cut and is not set there anyway. */
export function restateDynamics(mending: Mending): void {
  const marks = eventsInTime(mending.music).flatMap(readLoudness);
  for (const [index, span] of mending.spans.entries()) {
    const last = (place: Position) => marks.findLast(({ at }) => comparePositions(at, place) < 0);
    const before = mending.spans[index - 1]?.to;
    const after = last(span.from);
    const isOwn = marks.some(({ at }) => comparePositions(at, span.from) === 0);
    if (!after || isOwn || after.mark === (before && last(before)?.mark)) continue;
    mending.atStart[index]?.push(directionLike(after));
  }
}

function readLoudness(event: PartEvent): Loudness[] {
  if (event.node.name !== "direction") return [];
  return childrenNamed(event.node, "direction-type")
    .flatMap((type) => childrenNamed(type, "dynamics"))
    .flatMap(childElements)
    .filter(({ name }) => level.test(name))
    .map(({ name }) => ({ at: { barIndex: event.barIndex, offset: event.at }, event, mark: name }));
}

function directionLike({ event, mark }: Loudness): XmlElement {
  const { placement } = event.node.attributes;
  const dynamics = element("dynamics", {}, element(mark));
  const direction = element(
    "direction",
    placement ? { placement } : {},
    element("direction-type", {}, dynamics),
  );
  const staff = child(event.node, "staff");
  if (staff) direction.children.push({ ...staff });
  return direction;
}
