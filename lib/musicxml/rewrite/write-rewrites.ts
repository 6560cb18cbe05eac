import { toPosition } from "@/lib/edition/position-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { comparePositions } from "@/lib/score/position";
import type { Score } from "@/lib/score/score";
import { evenDivisions } from "../cut/even-divisions";
import { copyTree, idMaker } from "../marks/writable-tree";
import type { MusicXmlTree } from "../read-tree";
import type { XmlElement } from "../xml-tree";
import { type NewNote, replaceNotes } from "./replace-notes";
import { spellRewrite, timesOf } from "./spelled-rewrite";
import { writeOssias } from "./write-ossias";

/**
 * A source with the rewrites of an edition, as a new tree; to be done before its cuts are applied. Those shown in place
 * replace the notes of their span; those shown as an ossia stand in parts of their own, beside the part that they
 * change, with the `staff-type` "ossia": `lib/engrave/ossia` draws them as small staves over just their bars. Ids of all
 * that stays are kept.
 *
 * Rewrites of a part that the tree does not have are left out. Of several that overlap, the last one holds.
 *
 * @param score of the same bars: `scoreFromTree(tree).score`, or that of the source the tree's parts were taken from.
 * @throws RangeError if a part needs more divisions of a quarter note than can be written.
 */
export function writeRewrites(
  tree: MusicXmlTree,
  score: Score,
  rewrites: readonly RewriteTerms[],
): MusicXmlTree {
  if (rewrites.length === 0) return tree;
  const copy = copyTree(tree);
  const nextId = idMaker(copy, "w");
  const shown = (how: RewriteTerms["shown"], part: XmlElement) =>
    rewrites.filter((rewrite) => rewrite.shown === how && rewrite.partId === part.attributes.id);
  let written = copy;
  // The printed notes are what an ossia is compared with: it comes first.
  for (const part of copy.parts)
    written = writeOssias(written, score, part, withoutOverlaps(shown("ossia", part)), nextId);
  for (const part of copy.parts) writeInPlace(part, score, withoutOverlaps(shown("in place", part)), nextId);
  return written;
}

function withoutOverlaps(rewrites: readonly RewriteTerms[]): RewriteTerms[] {
  const at = ({ from, to }: RewriteTerms) => ({ from: toPosition(from), to: toPosition(to) });
  return rewrites.filter((rewrite, index) =>
    rewrites.slice(index + 1).every((later) => {
      const [a, b] = [at(rewrite), at(later)];
      return comparePositions(a.to, b.from) <= 0 || comparePositions(b.to, a.from) <= 0;
    }),
  );
}

function writeInPlace(
  part: XmlElement,
  score: Score,
  rewrites: readonly RewriteTerms[],
  nextId: (barIndex: number) => string,
): void {
  if (rewrites.length === 0) return;
  const spelled = rewrites.map((rewrite) => ({ rewrite, voices: spellRewrite(rewrite, score) }));
  const borders = rewrites.flatMap(({ from, to }) => [toPosition(from).offset, toPosition(to).offset]);
  const divisions = evenDivisions(part, [...borders, ...spelled.flatMap(({ voices }) => timesOf(voices))]);
  const staffCount = score.parts.find(({ id }) => id === part.attributes.id)?.staffCount ?? 1;
  for (const { rewrite, voices } of spelled) {
    const notes = voices.flatMap(({ barIndex, voice, staff, write }): NewNote[] =>
      write({
        divisions,
        voice,
        staff: staffCount > 1 ? staff : null,
        nextId: () => nextId(barIndex),
      }).map((note) => ({ ...note, barIndex })),
    );
    const span = { from: toPosition(rewrite.from), to: toPosition(rewrite.to) };
    replaceNotes(part, divisions, span, notes);
  }
}
