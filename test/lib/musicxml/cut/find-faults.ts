import { checkSpanners } from "@/lib/musicxml/check-spanners";
import type { MusicXmlTree } from "@/lib/musicxml/read-tree";
import { child, childElements, childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";

/** What hangs loose in a piece, as sentences with ids, so that a cut piece can be compared with its source. */
export function findFaults(tree: MusicXmlTree): string[] {
  return checkSpanners(tree).map(({ id, name, key, fault }) => `${id}: ${name} ${key} ${fault}`);
}

function* walk(node: XmlElement): Generator<XmlElement> {
  yield node;
  for (const inner of childElements(node)) yield* walk(inner);
}

const text = (node: XmlElement, name: string): string => textOf(child(node, name)).trim();

const hasTie = (note: XmlElement, type: string): boolean =>
  [...walk(note)].some((node) => /^tied?$/.test(node.name) && node.attributes.type === type);

/** What a reader of the page takes from each note: where it stands, its clef, key and metre, and its pitch. */
export interface NoteReading {
  readonly clef: string;
  readonly key: string;
  readonly metre: string;
  /** Whether key, accidentals of the bar and ties tell the pitch that is meant. */
  readonly isPitchClear: boolean;
  readonly pitch: string;
  readonly quarters: number;
}

/** Every note of a piece by its id, read in time order as a player would. */
export function readAsPlayer(tree: MusicXmlTree): Map<string, NoteReading> {
  const readings = new Map<string, NoteReading>();
  for (const part of tree.parts) readPart(part, readings);
  return readings;
}

function readPart(part: XmlElement, readings: Map<string, NoteReading>): void {
  let divisions = 1;
  const held = new Map<string, XmlElement>();
  for (const measure of childrenNamed(part, "measure")) {
    const shown = new Map<string, number>();
    // A measure is read by columns: everything at one place before anything later.
    const columns: { at: number; node: XmlElement; divisions: number }[] = [];
    let cursor = 0;
    let chordAt = 0;
    for (const node of childElements(measure)) {
      const duration = child(node, "grace") ? 0 : Number(text(node, "duration")) || 0;
      if (node.name === "attributes" && child(node, "divisions")) divisions = Number(text(node, "divisions"));
      if (node.name === "backup") cursor -= duration / divisions;
      if (node.name === "forward") cursor += duration / divisions;
      if (node.name === "attributes") columns.push({ at: cursor, node, divisions });
      if (node.name !== "note") continue;
      const isChord = child(node, "chord") !== null;
      if (!isChord) chordAt = cursor;
      columns.push({ at: chordAt, node, divisions });
      if (!isChord) cursor += duration / divisions;
    }
    for (const { node, divisions: ticks } of columns.toSorted((a, b) => Math.round((a.at - b.at) * 1e6))) {
      if (node.name === "attributes") hold(held, node);
      else readings.set(node.attributes.id ?? "", readNote(node, held, shown, ticks));
    }
  }
}

function hold(held: Map<string, XmlElement>, attributes: XmlElement): void {
  for (const attribute of childElements(attributes)) {
    const number = attribute.attributes.number;
    if (attribute.name === "key" && number === undefined) {
      for (const name of [...held.keys()]) if (name.startsWith("key")) held.delete(name);
    }
    held.set(`${attribute.name}${number ?? (attribute.name === "clef" ? "1" : "")}`, attribute);
  }
}

const flat = (node: XmlElement | undefined): string =>
  node
    ? childElements(node)
        .map((each) => `${each.name}=${textOf(each).trim()}`)
        .join(" ")
    : "none";

function readNote(
  note: XmlElement,
  held: ReadonlyMap<string, XmlElement>,
  shown: Map<string, number>,
  divisions: number,
): NoteReading {
  const staff = text(note, "staff") || "1";
  const key = held.get(`key${staff}`) ?? held.get("key");
  const pitch = child(note, "pitch");
  const step = pitch ? text(pitch, "step") : "";
  const alter = pitch ? Number(text(pitch, "alter")) || 0 : 0;
  const place = pitch ? `${staff} ${step}${text(pitch, "octave")}` : "";
  const fifths = key ? Number(text(key, "fifths")) || 0 : 0;
  const inKey =
    fifths > 0 ? Number("FCGDAEB".indexOf(step) < fifths) : -Number("BEADGCF".indexOf(step) < -fifths);
  const isPitchClear =
    !pitch ||
    child(note, "accidental") !== null ||
    hasTie(note, "stop") ||
    (shown.get(place) ?? inKey) === alter;
  if (pitch && child(note, "accidental")) shown.set(place, alter);
  return {
    clef: flat(held.get(`clef${staff}`)),
    key: flat(key),
    metre: flat(held.get("time")),
    isPitchClear,
    pitch: pitch ? `${step}${alter}${text(pitch, "octave")}` : "",
    quarters: child(note, "grace") ? 0 : (Number(text(note, "duration")) || 0) / divisions,
  };
}
