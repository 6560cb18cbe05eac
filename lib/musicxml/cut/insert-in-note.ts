import { child, type XmlElement } from "../xml-tree";

/** MusicXML 4.0, `note`: the order in which its children have to stand. */
const noteOrder = [
  "grace",
  "cue",
  "chord",
  "pitch",
  "unpitched",
  "rest",
  "duration",
  "tie",
  "instrument",
  "footnote",
  "level",
  "voice",
  "type",
  "dot",
  "accidental",
  "time-modification",
  "stem",
  "notehead",
  "notehead-text",
  "staff",
  "beam",
  "notations",
  "lyric",
  "play",
  "listen",
];

/** Puts a child into a note where the schema wants it: after those of its own and of earlier names. */
export function insertInNote(note: XmlElement, inserted: XmlElement): void {
  const rank = noteOrder.indexOf(inserted.name);
  const after = note.children.findLastIndex(
    (node) => node.kind === "element" && noteOrder.indexOf(node.name) <= rank,
  );
  note.children.splice(after + 1, 0, inserted);
}

/** The note's `notations`, new and empty when it has none. */
export function notationsOf(note: XmlElement): XmlElement {
  const found = child(note, "notations");
  if (found) return found;
  const notations: XmlElement = { kind: "element", name: "notations", attributes: {}, children: [] };
  insertInNote(note, notations);
  return notations;
}
