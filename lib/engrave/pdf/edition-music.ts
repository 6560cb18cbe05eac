import { applyCuts, type Join } from "@/lib/musicxml/cut/apply-cuts";
import { keepParts } from "@/lib/musicxml/cut/keep-parts";
import { sayReadProblem } from "@/lib/musicxml/read-problem";
import { type MusicXmlTree, readTree } from "@/lib/musicxml/read-tree";
import { child, childrenNamed, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";
import type { CutSpan } from "@/lib/score/cut-span";
import type { PartRole } from "@/lib/score/part";

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
  const ids = source.parts.map((part) => part.attributes.id ?? "");
  const wanted = ids.filter((id) => roles.includes(input.partRoles[id] ?? "other"));
  const kept = keepParts(source, wanted.length > 0 ? wanted : ids);
  return applyCuts(kept, input.cuts, { marks });
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
