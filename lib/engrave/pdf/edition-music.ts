import { applyCuts, type Join } from "@/lib/musicxml/cut/apply-cuts";
import { keepParts } from "@/lib/musicxml/cut/keep-parts";
import { showCuts } from "@/lib/musicxml/cut/show-cuts";
import { writeLeadIns } from "@/lib/musicxml/lead-in/write-lead-ins";
import { writeMarks } from "@/lib/musicxml/marks/write-marks";
import { sayReadProblem } from "@/lib/musicxml/read-problem";
import { type MusicXmlTree, readTree } from "@/lib/musicxml/read-tree";
import { writeRewrites } from "@/lib/musicxml/rewrite/write-rewrites";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { child, childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";
import { assignRoles } from "@/lib/score/assign-roles";
import type { CutSpan } from "@/lib/score/cut-span";
import type { PartRole } from "@/lib/score/part";
import type { Score } from "@/lib/score/score";
import type { EditionMarks, PrintInput } from "./print-input";

/** What a reader plays from: some parts of the source, with the cuts carried out. */
export interface EditionMusic {
  readonly tree: MusicXmlTree;
  readonly joins: readonly Join[];
}

/** @throws Error if the stored source can no longer be read. */
export function readEditionSource(sourceMusicXml: Uint8Array): MusicXmlTree {
  const source = readTree(sourceMusicXml);
  if (!source.ok) throw new Error(`The source cannot be read: ${sayReadProblem(source.problem)}`);
  return source.value;
}

/**
 * @param roles of the parts that are wanted; when the source has none of them, all its parts are taken.
 * @param marks writes "Vi-" and "-de".
 */
export function takeEditionMusic(
  source: MusicXmlTree,
  input: { readonly partRoles: Readonly<Record<string, PartRole>>; readonly cuts: readonly CutSpan[] },
  roles: readonly PartRole[],
  marks: boolean,
): EditionMusic {
  return applyCuts(keepRoles(source, input.partRoles, roles), input.cuts, { marks });
}

const noMarks: EditionMarks = { breaths: [], cues: [], rewrites: [], remarks: [] };

/**
 * What a reader of an edition plays from: its marks and rewrites written in, its cuts taken out or shown, and the parts
 * that are the reader's. "Vi-" and "-de" are written.
 *
 * @param score of the source, in the edition's roles.
 */
export function takePrintedMusic(source: MusicXmlTree, score: Score, input: PrintInput): EditionMusic {
  const { partRoles, cuts, options } = input;
  const roles: PartRole[] = options.reader === "pianist" ? ["solo", "reduction"] : ["solo"];
  const hasLeadIns = options.reader === "soloist" && options.marks.includes("lead-ins");
  const written = writeEdition(source, score, input);
  const taken = keepRoles(written, partRoles, hasLeadIns ? ["solo", "reduction"] : roles);
  const { tree, joins } =
    options.cuts === "shown"
      ? { tree: showCuts(taken, cuts), joins: [] }
      : applyCuts(taken, cuts, { marks: true });
  if (!hasLeadIns) return { tree, joins };
  const played = assignRoles(scoreFromTree(tree).score, partRoles);
  return { tree: keepRoles(writeLeadIns(tree, played), partRoles, roles), joins };
}

/** The source with what the edition adds to it, as far as it is wanted. */
function writeEdition(
  source: MusicXmlTree,
  score: Score,
  { marks = noMarks, options, partRoles }: PrintInput,
) {
  const isWanted = (kind: (typeof options.marks)[number]) => options.marks.includes(kind);
  // What is played instead of the print is printed always; beside the print only when it is wanted.
  const rewrites = marks.rewrites.filter(({ shown }) => shown === "in place" || isWanted("ossias"));
  const rewritten = writeRewrites(source, score, options.reader === "pianist" ? rewrites : []);
  const wanted = {
    breaths: isWanted("breaths") ? marks.breaths : [],
    cues: isWanted("cues") ? marks.cues : [],
    remarks: isWanted("remarks") ? marks.remarks : [],
  };
  return writeMarks(rewritten, score, wanted, partRoles);
}

function keepRoles(
  tree: MusicXmlTree,
  partRoles: Readonly<Record<string, PartRole>>,
  roles: readonly PartRole[],
): MusicXmlTree {
  const ids = tree.parts.map((part) => part.attributes.id ?? "");
  const wanted = ids.filter((id) => roles.includes(partRoles[id] ?? "other"));
  return keepParts(tree, wanted.length > 0 ? wanted : ids);
}

/** Bars of the top part at which a new line helps the reader: rehearsal letters, and what follows a double bar. */
export function findWantedBreaks({ tree, joins }: EditionMusic): number[] {
  const atJoin = new Set(joins.map(({ cutBarIndex }) => cutBarIndex));
  const measures = childrenNamed(tree.parts[0] ?? tree.root, "measure");
  return measures.flatMap((measure, index) => {
    const before = measures[index - 1];
    const isNewSection =
      hasLetter(measure) || (before !== undefined && !atJoin.has(index) && hasDoubleBar(before));
    return index > 0 && isNewSection ? [index] : [];
  });
}

/** Bars that show their number although they begin no line: after joins, at letters and after rests of the top part. */
export function findNumberedBars({ tree, joins }: EditionMusic): Set<number> {
  const numbered = new Set(joins.map(({ cutBarIndex }) => cutBarIndex));
  const measures = childrenNamed(tree.parts[0] ?? tree.root, "measure");
  for (const [index, measure] of measures.entries()) {
    const before = measures.slice(Math.max(0, index - 2), index);
    const followsRest = before.length === 2 && before.every(hasOnlyRests) && !hasOnlyRests(measure);
    if (hasLetter(measure) || followsRest) numbered.add(index);
  }
  return numbered;
}

const hasOnlyRests = (measure: XmlElement): boolean =>
  childrenNamed(measure, "note").every((note) => child(note, "rest") !== null);

function hasLetter(measure: XmlElement): boolean {
  return childrenNamed(measure, "direction").some((direction) =>
    childrenNamed(direction, "direction-type").some((type) => child(type, "rehearsal") !== null),
  );
}

function hasDoubleBar(measure: XmlElement): boolean {
  return childrenNamed(measure, "barline").some(
    (barline) =>
      barline.attributes.location !== "left" &&
      /^light-(light|heavy)$/.test(textOf(child(barline, "bar-style")).trim()),
  );
}
