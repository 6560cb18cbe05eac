import { noQuarters, type Quarters } from "@/lib/score/quarters";
import type { MusicXmlTree } from "../read-tree";
import { child, childrenNamed, cloneElement } from "../xml-tree";
import { evenDivisions } from "./even-divisions";
import { barLengths, type PartMusic, readPartEvents } from "./part-events";
import { findAttributes, metreLength } from "./running-attributes";

/** A score read for cutting. */
export interface CuttableScore {
  /** A copy of the source: cutting changes it. */
  readonly tree: MusicXmlTree;
  readonly parts: readonly PartMusic[];
  /** Lengths of the bars; that of the metre for a bar without any music. */
  readonly lengths: readonly Quarters[];
  /** Null in senza misura. */
  readonly metreLengths: readonly (Quarters | null)[];
}

/**
 * Copies a tree and finds every element's place in time.
 *
 * @param places offsets inside bars at which it will be cut.
 * @throws RangeError when bars and places have no common unit: see `evenDivisions`.
 */
export function readCuttable(tree: MusicXmlTree, places: readonly Quarters[]): CuttableScore {
  const root = cloneElement(tree.root);
  const parts = childrenNamed(root, "part");
  const music = parts.map((part) => readPartEvents(part, evenDivisions(part, places)));
  const metreLengths = readMetreLengths(music[0]);
  const lengths = barLengths(music).map((length, index) =>
    length.num === 0 ? (metreLengths[index] ?? noQuarters) : length,
  );
  return {
    tree: { ...tree, document: { ...tree.document, root }, root, parts },
    parts: music,
    lengths,
    metreLengths,
  };
}

function readMetreLengths(first: PartMusic | undefined): (Quarters | null)[] {
  if (!first) return [];
  const changes = findAttributes(first).filter(({ at }) => at.offset.num === 0);
  let held: Quarters | null = null;
  let next = 0;
  return first.bars.map((_, barIndex) => {
    for (let change = changes[next]; change && change.at.barIndex <= barIndex; change = changes[next]) {
      const time = child(change.node, "time");
      if (time) held = metreLength(time);
      next += 1;
    }
    return held;
  });
}
