import type { PracticeRecord } from "./practice-entry";
import type { PassageBars } from "./practice-passage";

/**
 * What the log says of a passage, from the first to the last: entries that stand and whose bars hold the whole passage.
 * One for a part of it does not tell how the whole goes.
 */
export function findEntries(
  { fromBar, toBar }: PassageBars,
  log: readonly PracticeRecord[],
): PracticeRecord[] {
  return log
    .filter((entry) => entry.removedAt === null && entry.fromBar <= fromBar && entry.toBar >= toBar)
    .toSorted((a, b) => a.at.localeCompare(b.at) || a.id.localeCompare(b.id));
}
