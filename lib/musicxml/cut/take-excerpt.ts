import { noQuarters } from "@/lib/score/quarters";
import type { MusicXmlTree } from "../read-tree";
import { childElements, childrenNamed, type XmlElement } from "../xml-tree";
import { readCuttable } from "./cuttable-score";
import { keepSpans } from "./keep-spans";
import { removeChild } from "./mending";

/**
 * Some bars of a score, as a new tree that can be read alone: clef, key, metre, transposition, tempo and loudness are
 * written where it begins, and nothing that spans notes is left open. Bar numbers and ids stay those of the source.
 *
 * @param firstBar,lastBar indices, both included.
 * @throws RangeError if they are no bars of the score or in the wrong order.
 */
export function takeExcerpt(tree: MusicXmlTree, firstBar: number, lastBar: number): MusicXmlTree {
  const score = readCuttable(tree, []);
  if (!score.lengths[firstBar] || !score.lengths[lastBar] || firstBar > lastBar) {
    throw new RangeError(`No such bars: ${firstBar} to ${lastBar} of ${score.lengths.length}`);
  }
  const span = {
    from: { barIndex: firstBar, offset: noQuarters },
    to: { barIndex: lastBar + 1, offset: noQuarters },
  };
  const excerpt = keepSpans(score, [span], () => {});
  for (const measures of excerpt.measures) dropLoneEndings(measures);
  return excerpt.tree;
}

/** A first or second ending of which only one end is left. */
function dropLoneEndings(measures: readonly XmlElement[]): void {
  let open: { barline: XmlElement; ending: XmlElement } | null = null;
  for (const barline of measures.flatMap((measure) => childrenNamed(measure, "barline"))) {
    for (const ending of childElements(barline).filter(({ name }) => name === "ending")) {
      const isStart = ending.attributes.type === "start";
      if (isStart && open) removeChild(open.barline, open.ending);
      if (!isStart && !open) removeChild(barline, ending);
      open = isStart ? { barline, ending } : null;
    }
  }
  if (open) removeChild(open.barline, open.ending);
}
