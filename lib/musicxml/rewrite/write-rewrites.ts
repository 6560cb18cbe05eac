import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { Score } from "@/lib/score/score";
import type { MusicXmlTree } from "../read-tree";

/**
 * A source with the rewrites of an edition, as a new tree; to be done before its cuts are applied. Those shown in place
 * replace the notes of their span; those shown as an ossia stand in parts of their own, before the part that they
 * change, with the `staff-type` "ossia": `lib/engrave/ossia` draws them as small staves over just their bars.
 *
 * @param score of the same bars: `scoreFromTree(tree).score`, or that of the source the tree's parts were taken from.
 */
export function writeRewrites(
  tree: MusicXmlTree,
  _score: Score,
  _rewrites: readonly RewriteTerms[],
): MusicXmlTree {
  return tree;
}
