import { comparePositions } from "@/lib/score/position";
import { scaleQuarters } from "@/lib/score/quarters";
import type { MusicXmlTree } from "../read-tree";
import { ossiaOf } from "../rewrite/ossia-part";
import { child, childElements, childrenNamed, cloneElement, textOf, type XmlElement } from "../xml-tree";
import { evenDivisions } from "./even-divisions";
import { insertAt } from "./insert-at";
import { type PartEvent, readPartEvents } from "./part-events";
import { withoutIds } from "./running-attributes";
import { isTempoMark } from "./tempo-at";

/**
 * A score with some of its parts, as a new tree. What stands over the top part for all players (tempi, rehearsal
 * letters, signs and jumps) moves to the new top part, and so do the measure ids, by which a bar is known. Ossias stay
 * with the part that they belong to.
 *
 * @param partIds MusicXML ids of the parts to keep; the order stays that of the score.
 * @throws RangeError if none of them is a part of the score.
 */
export function keepParts(tree: MusicXmlTree, partIds: readonly string[]): MusicXmlTree {
  const root = cloneElement(tree.root);
  const all = childrenNamed(root, "part");
  const isKept = (id: string | undefined) => partIds.includes(id ?? "");
  const parts = topFirst(
    all.filter(({ attributes }) => isKept(attributes.id) || isKept(ossiaOf(attributes.id) ?? undefined)),
  );
  const [oldTop] = all;
  const top = parts.find(({ attributes }) => isKept(attributes.id));
  if (!top || !oldTop) throw new RangeError(`No part of the score has one of the ids ${partIds.join(", ")}`);
  if (top !== oldTop) {
    moveSharedDirections(oldTop, top);
    moveIds(oldTop, top);
  }
  inOrder(root, "part", parts);
  const list = child(root, "part-list");
  if (list) {
    keepEntries(list, new Set(parts.map((part) => part.attributes.id ?? "")));
    const entries = childrenNamed(list, "score-part");
    inOrder(
      list,
      "score-part",
      parts.flatMap(({ attributes }) => entries.find((entry) => entry.attributes.id === attributes.id) ?? []),
    );
  }
  return { ...tree, document: { ...tree.document, root }, root, parts };
}

/** Bars are known by the top part, which is never an ossia. */
function topFirst(parts: readonly XmlElement[]): XmlElement[] {
  const first = parts.findIndex(({ attributes }) => ossiaOf(attributes.id) === null);
  const [top] = parts.slice(Math.max(0, first));
  return top ? [top, ...parts.filter((part) => part !== top)] : [];
}

/** Leaves only some children of a name, in the given order, where such children stood. */
function inOrder(parent: XmlElement, name: string, nodes: readonly XmlElement[]): void {
  const waiting = [...nodes];
  parent.children = parent.children.flatMap((node) => {
    if (node.kind !== "element" || node.name !== name) return [node];
    return nodes.includes(node) ? (waiting.shift() ?? []) : [];
  });
}

function moveIds(from: XmlElement, to: XmlElement): void {
  const measures = childrenNamed(to, "measure");
  for (const [index, measure] of childrenNamed(from, "measure").entries()) {
    const target = measures[index];
    if (target && measure.attributes.id) target.attributes.id = measure.attributes.id;
  }
}

/** Entries of parts that stay; a bracket or brace stays when it still holds two. */
function keepEntries(list: XmlElement, ids: ReadonlySet<string>): void {
  list.children = list.children.filter(
    (node) => node.kind !== "element" || node.name !== "score-part" || ids.has(node.attributes.id ?? ""),
  );
  const entries = childElements(list);
  const gone = new Set<XmlElement>();
  for (const [index, start] of entries.entries()) {
    if (start.name !== "part-group" || start.attributes.type !== "start") continue;
    const number = start.attributes.number ?? "1";
    const stopAt = entries.findIndex(
      (entry, at) =>
        at > index &&
        entry.name === "part-group" &&
        entry.attributes.type === "stop" &&
        (entry.attributes.number ?? "1") === number,
    );
    const stop = entries[stopAt];
    const held = entries.slice(index, stopAt).filter(({ name }) => name === "score-part").length;
    if (!stop || held < 2) for (const entry of stop ? [start, stop] : [start]) gone.add(entry);
  }
  list.children = list.children.filter((node) => node.kind !== "element" || !gone.has(node));
}

/** Attributes of `sound` that send all players somewhere (MusicXML 4.0). */
const jumps = ["segno", "coda", "tocoda", "dalsegno", "dacapo", "fine"];

function isShared(node: XmlElement): boolean {
  if (node.name !== "direction" && node.name !== "sound") return false;
  const sound = node.name === "sound" ? node : child(node, "sound");
  const isSounded =
    sound !== null && ["tempo", ...jumps].some((name) => sound.attributes[name] !== undefined);
  const isSigned = childrenNamed(node, "direction-type").some((type) =>
    ["rehearsal", "segno", "coda"].some((name) => child(type, name) !== null),
  );
  return isSounded || isSigned || isTempoMark(node);
}

/** Copies what all players need, unless the part says the same at the same place. */
function moveSharedDirections(from: XmlElement, to: XmlElement): void {
  const source = readPartEvents(from, evenDivisions(from, []));
  const shared = source.bars.flatMap((bar) => bar.events.filter((event) => isShared(event.node)));
  const divisions = evenDivisions(
    to,
    shared.map((event) => event.at),
  );
  const target = readPartEvents(to, divisions);
  for (const event of shared) {
    const bar = target.bars[event.barIndex];
    if (!bar || bar.events.some((own) => saysSame(own, event))) continue;
    const copy = withoutIds(cloneElement(event.node));
    copy.children = copy.children.filter(
      (node) => node.kind !== "element" || (node.name !== "staff" && node.name !== "voice"),
    );
    insertAt(bar.measure, scaleQuarters(event.at, divisions).num, copy);
  }
}

function saysSame(own: PartEvent, event: PartEvent): boolean {
  const isSamePlace =
    comparePositions(
      { barIndex: own.barIndex, offset: own.at },
      { barIndex: event.barIndex, offset: event.at },
    ) === 0;
  return isSamePlace && isShared(own.node) && essence(own.node) === essence(event.node);
}

const essence = (node: XmlElement): string =>
  childrenNamed(node, "direction-type")
    .map((type) => textOf(type).replace(/\s+/g, " ").trim())
    .join(" ") || JSON.stringify(node.attributes);
