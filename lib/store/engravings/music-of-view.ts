import { type CutTerms, toCutSpan } from "@/lib/edition/cut-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { applyCuts } from "@/lib/musicxml/cut/apply-cuts";
import { keepParts } from "@/lib/musicxml/cut/keep-parts";
import { sayReadProblem } from "@/lib/musicxml/read-problem";
import { type MusicXmlTree, readTree } from "@/lib/musicxml/read-tree";
import { writeRewrites } from "@/lib/musicxml/rewrite/write-rewrites";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { writeTree } from "@/lib/musicxml/write-tree";
import { childrenNamed } from "@/lib/musicxml/xml-tree";
import type { PartRole } from "@/lib/score/part";

/** What is drawn: the music of a source, of these parts, with these rewrites over or in it and these cuts carried out. */
export interface DrawnMusic {
  readonly bytes: Uint8Array;
  readonly partIds: readonly string[];
  readonly cuts: readonly CutTerms[];
  readonly rewrites: readonly RewriteTerms[];
}

/** The parts of the duo's score, or of the solo alone; those of the score when nobody has said which these are. */
export function findDrawnParts(partRoles: Readonly<Record<string, PartRole>>, isSoloAlone = false): string[] {
  const ids = Object.keys(partRoles).sort();
  const solo = ids.filter((id) => partRoles[id] === "solo");
  if (isSoloAlone && solo.length > 0) return solo;
  const drawn = ids.filter((id) => partRoles[id] === "solo" || partRoles[id] === "reduction");
  return drawn.length > 0 ? drawn : ids;
}

export interface MusicToDraw {
  readonly musicXml: string;
  /** Index in the source of each bar that is drawn: a cut piece has fewer bars, with the ids they had. */
  readonly sourceBars: readonly number[];
}

/**
 * MusicXML for the engraver, with the ids of the source.
 *
 * @throws Error if the stored source can no longer be read.
 */
export function writeDrawnMusic({ bytes, partIds, cuts, rewrites }: DrawnMusic): MusicToDraw {
  const tree = readTree(bytes);
  if (!tree.ok) throw new Error(`the stored source cannot be read: ${sayReadProblem(tree.problem)}`);
  const written =
    rewrites.length === 0 ? tree.value : writeRewrites(tree.value, scoreFromTree(tree.value).score, rewrites);
  const kept = keepParts(written, partIds);
  const inSource = barIds(kept);
  const drawn = applyCuts(kept, cuts.map(toCutSpan), { marks: true }).tree;
  const sourceBars = barIds(drawn).map((id) => inSource.indexOf(id));
  return { musicXml: writeTree(drawn), sourceBars };
}

/** A bar is known by the id of its measure in the first part. */
function barIds({ parts: [first] }: MusicXmlTree): string[] {
  return first ? childrenNamed(first, "measure").map((measure) => measure.attributes.id ?? "") : [];
}
