import type { EditionContent } from "@/lib/edition/edition-content";
import { type PositionTerms, toPosition } from "@/lib/edition/position-terms";
import { assignRoles } from "@/lib/score/assign-roles";
import type { PartRole } from "@/lib/score/part";
import type { Score } from "@/lib/score/score";
import type { MusicXmlTree } from "../read-tree";
import { wordsAbove } from "./words-above";
import { wrapRemark } from "./wrap-remark";
import { copyTree, insertInPart, type PlacedElement, partOf, placeIn } from "./writable-tree";
import { writeBreaths } from "./write-breaths";

/** What two players marked in an edition besides cuts and rewrites. */
export type EditionMarks = Pick<EditionContent, "breaths" | "cues" | "remarks">;

/**
 * A source with the marks of an edition, as a new tree unless there are none; to be done before its cuts are applied. No
 * note changes, ids stay.
 *
 * - Breaths: a comma in the solo part after the last note before the place, unless a rest is there or the comma is.
 * - Cues: upright words without serifs above the top staff of the reduction, exactly where the line begins.
 * - Remarks: words in italics with the author's short name above the top staff of the solo part, or of the reduction in a
 *   tree without a solo part.
 *
 * Marks of a part that the tree does not have are left out; so are places behind the last bar.
 *
 * @param score of the same bars: `scoreFromTree(tree).score`, or that of the source the tree's parts were taken from.
 * @param roles by part id, over those that the score guessed.
 */
export function writeMarks(
  tree: MusicXmlTree,
  score: Score,
  { breaths, cues, remarks }: EditionMarks,
  roles: Readonly<Record<string, PartRole>>,
): MusicXmlTree {
  // To copy a long score takes longer than to mark it.
  if (breaths.length + cues.length + remarks.length === 0) return tree;
  const copy = copyTree(tree);
  const ids = new Set(copy.parts.map((part) => part.attributes.id));
  const parts = assignRoles(score, roles).parts.filter(({ id }) => ids.has(id));
  const solo = parts.find(({ role }) => role === "solo");
  const reduction = parts.find(({ role }) => role === "reduction");
  const place = <Terms extends { text: string }>(
    list: readonly Terms[],
    atOf: (terms: Terms) => PositionTerms,
    write: (terms: Terms) => PlacedElement["node"],
  ): PlacedElement[] =>
    list.flatMap((terms) => {
      const at = placeIn(score, toPosition(atOf(terms)));
      return at ? [{ at, node: write(terms) }] : [];
    });
  if (solo)
    writeBreaths(
      partOf(copy, solo.id),
      solo,
      score,
      breaths.map(({ at }) => toPosition(at)),
    );
  const written = {
    cues: place(
      cues,
      ({ at }) => at,
      ({ text }) => wordsAbove(text, "cue"),
    ),
    remarks: place(
      remarks,
      ({ from }) => from,
      ({ text, by }) => wordsAbove(wrapRemark(text, by), "remark"),
    ),
  };
  const top = solo ?? reduction;
  if (top) insertInPart(partOf(copy, top.id), written.remarks);
  if (reduction) insertInPart(partOf(copy, reduction.id), written.cues);
  return copy;
}
