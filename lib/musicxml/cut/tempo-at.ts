import { comparePositions, type Position } from "@/lib/score/position";
import { readTempoWords } from "@/lib/score/read-tempo-words";
import { child, childrenNamed, cloneElement, element, textOf, type XmlElement } from "../xml-tree";
import { eventsInTime, type PartMusic } from "./part-events";
import { withoutIds } from "./running-attributes";

/** A place that says how fast to play: a printed mark, a number for playback, or both. */
export interface TempoSign {
  readonly at: Position;
  readonly node: XmlElement;
  readonly isPrinted: boolean;
}

/** All tempo signs of a score, by time. They hold for every part, whichever carries them. */
export function findTempoSigns(parts: readonly PartMusic[]): TempoSign[] {
  const signs = parts.flatMap((music) =>
    eventsInTime(music).flatMap(({ node, barIndex, at }): TempoSign[] => {
      const isPrinted = isTempoMark(node);
      const isSign = isPrinted || soundOf(node)?.attributes.tempo !== undefined;
      return isSign ? [{ at: { barIndex, offset: at }, node, isPrinted }] : [];
    }),
  );
  return signs.sort((a, b) => comparePositions(a.at, b.at));
}

/** Whether a direction sets a tempo on paper. A gradual change ("rit.") sets none. */
export function isTempoMark(node: XmlElement): boolean {
  if (node.name !== "direction") return false;
  const types = childrenNamed(node, "direction-type");
  if (types.some((type) => child(type, "metronome"))) return true;
  const meaning = readTempoWords(wordsOf(node));
  return meaning !== null && meaning.kind !== "ramp";
}

function wordsOf(direction: XmlElement): string {
  return childrenNamed(direction, "direction-type")
    .flatMap((type) => childrenNamed(type, "words"))
    .map(textOf)
    .join(" ")
    .trim();
}

const soundOf = (node: XmlElement): XmlElement | null =>
  node.name === "sound" ? node : child(node, "sound");

/**
 * The tempo that has to be written again where the music goes from `before` to `after`; nothing when it is the same or
 * when a sign of its own stands at `after`.
 */
export function restateTempo(
  signs: readonly TempoSign[],
  before: Position | null,
  after: Position,
): XmlElement[] {
  if (signs.some((sign) => sign.isPrinted && comparePositions(sign.at, after) === 0)) return [];
  const last = (place: Position | null, isFit: (sign: TempoSign) => boolean) =>
    place && signs.findLast((sign) => isFit(sign) && comparePositions(sign.at, place) < 0);
  const printed = last(after, (sign) => sign.isPrinted);
  const sounded = last(after, (sign) => soundOf(sign.node)?.attributes.tempo !== undefined);
  const restated: XmlElement[] = [];
  const isNewPrint = printed && printed !== last(before, (sign) => sign.isPrinted);
  if (isNewPrint) restated.push(tempoOnly(printed.node));
  const tempo = sounded && soundOf(sounded.node)?.attributes.tempo;
  const wasSounded = last(before, (sign) => soundOf(sign.node)?.attributes.tempo !== undefined);
  const tempoBefore = wasSounded && soundOf(wasSounded.node)?.attributes.tempo;
  const isRestated = isNewPrint && sounded === printed;
  if (tempo && !isRestated && (tempo !== tempoBefore || isNewPrint))
    restated.push(element("sound", { tempo }));
  return restated;
}

/** The tempo of a direction without what else it carries. */
function tempoOnly(direction: XmlElement): XmlElement {
  const copy = withoutIds(cloneElement(direction));
  copy.children = copy.children.filter((node) => {
    if (node.kind !== "element") return false;
    if (node.name === "direction-type")
      return child(node, "words") !== null || child(node, "metronome") !== null;
    return node.name === "sound";
  });
  const tempo = child(copy, "sound")?.attributes.tempo;
  copy.children = copy.children.map((node) =>
    node.kind === "element" && node.name === "sound" ? element("sound", tempo ? { tempo } : {}) : node,
  );
  if (!tempo)
    copy.children = copy.children.filter((node) => node.kind !== "element" || node.name !== "sound");
  return copy;
}
