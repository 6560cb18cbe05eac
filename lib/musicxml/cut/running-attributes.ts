import { comparePositions, type Position } from "@/lib/score/position";
import { type Quarters, quarters } from "@/lib/score/quarters";
import {
  child,
  childElements,
  childrenNamed,
  cloneElement,
  element,
  textOf,
  type XmlElement,
} from "../xml-tree";
import { eventsInTime, type PartMusic } from "./part-events";

/**
 * What holds at a place of a part because it was written earlier, by element and staff: `clef 2`, `key` (all staves).
 */
export type RunningAttributes = ReadonlyMap<string, XmlElement>;

/** MusicXML 4.0, `attributes`: the children that go on holding, in the order in which they have to stand. */
const inOrder = ["divisions", "key", "time", "staves", "part-symbol", "clef", "staff-details", "transpose"];
/** Without a number these hold for every staff; the others, without one, for the first. */
const forAllStaves = new Set(["divisions", "key", "time", "staves", "part-symbol", "transpose"]);

/** A change of what holds, at a place. */
export interface AttributesChange {
  readonly at: Position;
  readonly node: XmlElement;
}

/** Every `attributes` element of a part, in the order of time. */
export function findAttributes(music: PartMusic): AttributesChange[] {
  return eventsInTime(music)
    .filter((event) => event.node.name === "attributes")
    .map((event) => ({ at: { barIndex: event.barIndex, offset: event.at }, node: event.node }));
}

/** What holds just before `place`. */
export function attributesBefore(changes: readonly AttributesChange[], place: Position): RunningAttributes {
  const running = new Map<string, XmlElement>();
  for (const { at, node } of changes) {
    if (comparePositions(at, place) >= 0) break;
    for (const attribute of childElements(node)) apply(running, attribute);
  }
  return running;
}

function apply(running: Map<string, XmlElement>, attribute: XmlElement): void {
  if (!inOrder.includes(attribute.name)) return;
  const staff = staffName(attribute);
  if (staff === "") {
    for (const key of running.keys()) if (key.startsWith(`${attribute.name} `)) running.delete(key);
  }
  running.set(`${attribute.name} ${staff}`, attribute);
}

function staffName(attribute: XmlElement): string {
  return attribute.attributes.number ?? (forAllStaves.has(attribute.name) ? "" : "1");
}

/** The value that holds for a staff. */
export function heldFor(running: RunningAttributes, name: string, staff: string): XmlElement | null {
  return running.get(`${name} ${staff}`) ?? running.get(`${name} `) ?? null;
}

/**
 * What has to be written again where the music goes from a place where `before` holds to one where `after` holds.
 *
 * @param own `attributes` elements that stand at the second place itself and need no help.
 * @returns null when nothing changes.
 */
export function restateAttributes(
  before: RunningAttributes,
  after: RunningAttributes,
  own: readonly XmlElement[],
): XmlElement | null {
  const written = new Map<string, XmlElement>();
  for (const attributes of own) for (const attribute of childElements(attributes)) apply(written, attribute);
  const needed = [...after].filter(([key, attribute]) => {
    const staff = key.slice(attribute.name.length + 1);
    if (written.has(key) || written.has(`${attribute.name} `)) return false;
    return !isSameNotation(attribute, heldFor(before, attribute.name, staff));
  });
  if (needed.length === 0) return null;
  const nodes = needed.map(([, attribute]) => withoutIds(cloneElement(attribute)));
  nodes.sort((a, b) => inOrder.indexOf(a.name) - inOrder.indexOf(b.name));
  return element("attributes", {}, ...nodes);
}

/** Equal but for ids, places on paper and white space. */
export function isSameNotation(a: XmlElement, b: XmlElement | null): boolean {
  return b !== null && essence(a) === essence(b);
}

function essence(node: XmlElement): string {
  const attributes = Object.entries(node.attributes)
    .filter(([name]) => !/^(id|default-[xy]|relative-[xy]|print-object|additional|number)$/.test(name))
    .sort(([a], [b]) => (a < b ? -1 : 1));
  const inner = childElements(node).map(essence);
  return JSON.stringify([node.name, attributes, inner.length > 0 ? inner : textOf(node).trim()]);
}

export function withoutIds(node: XmlElement): XmlElement {
  delete node.attributes.id;
  for (const inner of childElements(node)) withoutIds(inner);
  return node;
}

/** What the metre of a `time` element asks for in a bar; null in senza misura and for what is no number. */
export function metreLength(time: XmlElement | null): Quarters | null {
  if (!time || child(time, "senza-misura")) return null;
  const types = childrenNamed(time, "beat-type");
  let sum = { num: 0, den: 1 };
  for (const [index, beats] of childrenNamed(time, "beats").entries()) {
    const count = textOf(beats)
      .split("+")
      .reduce((all, part) => all + Number(part), 0);
    const type = Number(textOf(types[index] ?? null));
    if (!Number.isSafeInteger(count) || !Number.isSafeInteger(type) || count <= 0 || type <= 0) return null;
    sum = { num: sum.num * type + count * 4 * sum.den, den: sum.den * type };
  }
  return sum.num === 0 ? null : quarters(sum.num, sum.den);
}
