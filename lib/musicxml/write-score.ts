import type { Part } from "@/lib/score/part";
import type { Score } from "@/lib/score/score";
import { findAnchoredBars } from "./anchored-bars";
import { attachTempi } from "./attach-tempi";
import { writePart } from "./write-part";
import { writeXml } from "./write-xml";
import { element, type XmlDocument, type XmlElement, type XmlNode } from "./xml-tree";

/**
 * The model as MusicXML 4.0 partwise text, valid against its schema; `readScore` gives the same model back. Ids become
 * the file's ids, so they must be XML IDs, each used once, and every voice, staff and offset must lie inside its bar.
 *
 * What the model does not keep cannot be written: beams, stems, tuplet brackets, accidentals' display, layout,
 * verses after the first. Note types and dots are worked out from durations.
 *
 * @throws RangeError if durations are finer than `divisions` can count.
 */
export function writeScore(score: Score): string {
  const whole = { score, tempi: attachTempi(score), anchored: findAnchoredBars(score) };
  const parts = score.parts.map((part, index) => writePart(whole, part, index));
  const root = element(
    "score-partwise",
    { version: "4.0" },
    ...writeHead(score),
    element("part-list", {}, ...score.parts.map(writeScorePart)),
    ...parts,
  );
  indent(root, 0);
  const document: XmlDocument = {
    declaration: { version: "1.0", standalone: null },
    prolog: [
      { kind: "text", text: "\n" },
      {
        kind: "doctype",
        text: ' score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd"',
      },
      { kind: "text", text: "\n" },
    ],
    root,
    epilog: [{ kind: "text", text: "\n" }],
    lineEnd: "\n",
  };
  return writeXml(document);
}

function writeHead({ title, movement, composer }: Score): XmlElement[] {
  const head: XmlElement[] = [];
  if (title !== null) head.push(element("work", {}, element("work-title", {}, title)));
  if (movement !== null) head.push(element("movement-title", {}, movement));
  if (composer !== null) {
    head.push(element("identification", {}, element("creator", { type: "composer" }, composer)));
  }
  return head;
}

function writeScorePart(part: Part): XmlElement {
  const scorePart = element("score-part", { id: part.id }, element("part-name", {}, part.name));
  if (part.abbreviation !== null)
    scorePart.children.push(element("part-abbreviation", {}, part.abbreviation));
  if (part.soundId === null && part.midiProgram === null) return scorePart;
  const id = `${part.id}-instrument`;
  const instrument = element("score-instrument", { id }, element("instrument-name", {}, part.name));
  if (part.soundId !== null) instrument.children.push(element("instrument-sound", {}, part.soundId));
  scorePart.children.push(instrument);
  if (part.midiProgram !== null) {
    const program = element("midi-program", {}, `${part.midiProgram}`);
    scorePart.children.push(element("midi-instrument", { id }, program));
  }
  return scorePart;
}

/** Puts each element on a line of its own; elements with text stay as they are. */
function indent(parent: XmlElement, depth: number): void {
  if (parent.children.length === 0 || parent.children.some(({ kind }) => kind !== "element")) return;
  const line = (level: number): XmlNode => ({ kind: "text", text: `\n${"  ".repeat(level)}` });
  const children = parent.children;
  parent.children = [];
  for (const node of children) {
    if (node.kind === "element") indent(node, depth + 1);
    parent.children.push(line(depth + 1), node);
  }
  parent.children.push(line(depth));
}
