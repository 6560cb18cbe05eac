import type { EditionContent } from "@/lib/edition/edition-content";
import { assignRoles } from "@/lib/score/assign-roles";
import type { CutSpan } from "@/lib/score/cut-span";
import type { PartRole } from "@/lib/score/part";
import { type EditionMarks, writeMarks } from "../marks/write-marks";
import { sayReadProblem } from "../read-problem";
import type { MusicXmlTree } from "../read-tree";
import { readTree } from "../read-tree";
import { writeRewrites } from "../rewrite/write-rewrites";
import { scoreFromTree } from "../score-from-tree";
import { writeTree } from "../write-tree";
import { child, cloneElement, element, type XmlDoctype, type XmlElement, type XmlNode } from "../xml-tree";
import { applyCuts } from "./apply-cuts";

/** What an edition's file says about itself. */
export interface EditionFile {
  /** The source, as it was uploaded. */
  readonly sourceMusicXml: Uint8Array;
  readonly cuts: readonly CutSpan[];
  /** By MusicXML part id. */
  readonly partRoles: Readonly<Record<string, PartRole>>;
  /** What the players marked and rewrote. */
  readonly marks: EditionMarks & Pick<EditionContent, "rewrites">;
  readonly editionNumber: number;
  /** ISO date. */
  readonly frozenOn: string;
  /** SHA-256 of the edition's content, hexadecimal. */
  readonly hash: string;
}

/**
 * An edition as MusicXML 4.0 text (UTF-8): the source with its rewrites, breaths, cues and printed comments, with its cuts
 * applied and marked "Vi-", "-de", and with the edition's number, date and hash among the file's own data. Bar numbers and ids are those of the source.
 *
 * @throws Error if the stored source can no longer be read.
 */
export function writeEditionMusicXml(edition: EditionFile): string {
  const source = readTree(edition.sourceMusicXml);
  if (!source.ok)
    throw new Error(`The source of the edition cannot be read: ${sayReadProblem(source.problem)}`);
  const { partRoles, marks } = edition;
  const score = assignRoles(scoreFromTree(source.value).score, partRoles);
  const rewritten = writeRewrites(source.value, score, marks.rewrites);
  const marked = writeMarks(rewritten, score, marks, partRoles);
  const { tree } = applyCuts(marked, edition.cuts, { marks: true });
  return writeTree(nameEdition(tree, edition));
}

function nameEdition(tree: MusicXmlTree, edition: EditionFile): MusicXmlTree {
  const root = cloneElement(tree.root);
  // Ids of notes and measures came with MusicXML 3.1.
  root.attributes.version = "4.0";
  const identification = identificationOf(root);
  const fields = child(identification, "miscellaneous") ?? append(identification, element("miscellaneous"));
  const facts = { number: `${edition.editionNumber}`, "agreed-on": edition.frozenOn, hash: edition.hash };
  for (const [name, value] of Object.entries(facts)) {
    fields.children.push(element("miscellaneous-field", { name: `edition-${name}` }, value));
  }
  const prolog = tree.document.prolog.map(asVersion4);
  return { ...tree, document: { ...tree.document, prolog, root }, root };
}

function append(parent: XmlElement, node: XmlElement): XmlElement {
  parent.children.push(node);
  return node;
}

/** MusicXML 4.0, `score-header`: what stands before `identification`. */
const before = new Set(["work", "movement-number", "movement-title"]);

function identificationOf(root: XmlElement): XmlElement {
  const found = child(root, "identification");
  if (found) return found;
  const identification = element("identification");
  const last = root.children.findLastIndex((node) => node.kind === "element" && before.has(node.name));
  root.children.splice(last + 1, 0, identification);
  return identification;
}

function asVersion4(node: XmlNode | XmlDoctype): XmlNode | XmlDoctype {
  if (node.kind !== "doctype") return node;
  const text =
    ' score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd"';
  return { kind: "doctype", text };
}
