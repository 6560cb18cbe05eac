import { comparePositions, type Position } from "@/lib/score/position";
import { childElements } from "../xml-tree";
import type { Mending } from "./mending";
import { type AttributesChange, attributesBefore, restateAttributes } from "./running-attributes";

/** Writes clef, key, metre and what else was set inside a cut where the music goes on, unless it stands there anyway. */
export function restateAtStarts(mending: Mending, changes: readonly AttributesChange[]): void {
  dropWarnings(mending, changes);
  const kept = changes.filter(({ node }) => !mending.removed.has(node));
  for (const [index, { from }] of mending.spans.entries()) {
    const before = mending.spans[index - 1];
    const running = before ? attributesBefore(kept, before.to) : new Map();
    const own = changes.filter(({ at }) => comparePositions(at, from) === 0).map(({ node }) => node);
    const restated = restateAttributes(running, attributesBefore(changes, from), own);
    if (restated) mending.atStart[index]?.push(restated);
  }
}

/** A clef, key or metre at the very end of a bar announces the next one. Before a cut it would announce the wrong one. */
function dropWarnings(mending: Mending, changes: readonly AttributesChange[]): void {
  const { bars } = mending.music;
  for (const { to } of mending.spans) {
    if (to.offset.num > 0 || to.barIndex >= bars.length) continue;
    for (const { at, node } of changes) {
      const isWarning = childElements(node).every(({ name }) => /^(clef|key|time)$/.test(name));
      if (isWarning && isBarEnd(mending, at) && at.barIndex === to.barIndex - 1) mending.removed.add(node);
    }
  }
}

function isBarEnd(mending: Mending, { barIndex, offset }: Position): boolean {
  const length = mending.music.bars[barIndex]?.length;
  return length !== undefined && length.num > 0 && offset.num * length.den >= length.num * offset.den;
}
