import type { ReadScore } from "@/lib/score/score";
import { NoticeBook } from "./notice-book";
import { ScoreProjector } from "./project-score";
import { headOf, type MusicXmlTree } from "./read-tree";
import { childrenNamed } from "./xml-tree";

/**
 * The score model of a tree, as `readScore` makes it of the file. Ids that the tree lacks are written into it.
 *
 * @throws ReadFailure if the tree holds no part or no bar, or what `readScore` would refuse.
 */
export function scoreFromTree(tree: MusicXmlTree): ReadScore {
  const projector = new ScoreProjector(tree.root, headOf(tree.root));
  for (const part of tree.parts) {
    projector.takePart(part);
    for (const measure of childrenNamed(part, "measure")) projector.takeMeasure(measure);
  }
  const { score, notices } = projector.finish();
  const book = new NoticeBook();
  book.addAll(tree.notices);
  book.addAll(notices);
  return { score, notices: book.list() };
}
