import { keepParts } from "@/lib/musicxml/cut/keep-parts";
import { takeExcerpt } from "@/lib/musicxml/cut/take-excerpt";
import { sayReadProblem } from "@/lib/musicxml/read-problem";
import { type MusicXmlTree, readTree } from "@/lib/musicxml/read-tree";
import { remember } from "../remember";
import type { PassageInput } from "./passage-input";
import { SourceMissing } from "./source-missing";

/** Parts of sources read lately, and passages of them. A part of 600 bars takes some tens of megabytes. */
const [mostParts, mostPassages] = [3, 24];
const parts = new Map<string, MusicXmlTree>();
const passages = new Map<string, MusicXmlTree>();

/**
 * The bars of a passage as a score of their own, which must not be changed: clef, key, metre and tempo are written where
 * it begins, bar numbers and ids are those of the source.
 *
 * @throws SourceMissing if the source was not read lately and does not come along.
 * @throws RangeError if it has no such part or bars.
 */
export function passageOf({ sourceHash, source, partId, fromBar, toBar }: PassageInput): MusicXmlTree {
  const key = JSON.stringify([sourceHash, partId]);
  return remember(passages, mostPassages, `${key} ${fromBar} ${toBar}`, () =>
    takeExcerpt(
      remember(parts, mostParts, key, () => readPart(sourceHash, source, partId)),
      fromBar,
      toBar,
    ),
  );
}

function readPart(sourceHash: string, source: Uint8Array | null, partId: string): MusicXmlTree {
  if (source === null) throw new SourceMissing(sourceHash);
  const tree = readTree(source);
  if (!tree.ok) throw new Error(`The source cannot be read: ${sayReadProblem(tree.problem)}`);
  return keepParts(tree.value, [partId]);
}
