import type { PracticeRecord } from "@/lib/practice/practice-entry";
import { entryOf, type PracticeChange } from "./practice-change";

/** An entry as the screen shows it. */
export interface LoggedEntry extends PracticeRecord {
  /** It is on this device only: it goes when there is a connection. */
  readonly isUnsent: boolean;
  /** Why the server did not take what was done to it; null while it did not refuse. */
  readonly refusal: string | null;
}

/**
 * The log as its pianist left it: what the server said, and over it what was done on this device since.
 *
 * @param changes of this piece, in the order in which they were made.
 */
export function layChanges(
  entries: readonly PracticeRecord[],
  changes: readonly PracticeChange[],
): LoggedEntry[] {
  const byId = new Map<string, LoggedEntry>(
    entries.map((entry) => [entry.id, { ...entry, isUnsent: false, refusal: null }]),
  );
  for (const change of changes) {
    const id = entryOf(change);
    const known = byId.get(id);
    const state = {
      isUnsent: (known?.isUnsent ?? false) || !change.isSent,
      refusal: change.refusal ?? known?.refusal ?? null,
    };
    if (change.kind === "log") {
      const { entryId, ...entry } = change.entry;
      byId.set(id, known ?? { id: entryId, ...entry, removedAt: null, ...state });
    } else if (known && change.refusal === null) {
      const removedAt = change.kind === "take off" ? new Date(change.madeAt).toISOString() : null;
      byId.set(id, { ...known, removedAt, ...state });
    } else if (known) byId.set(id, { ...known, ...state });
  }
  return [...byId.values()].sort((a, b) => a.at.localeCompare(b.at) || a.id.localeCompare(b.id));
}

/** By then a page that is drawn from the server knows what was sent, in milliseconds. */
const mostAge = 600_000;

/**
 * Sent changes of which nothing need be kept any longer: the server's log shows them, a later one overtook them, or they are
 * so old that the log is to be believed, such as when it was changed on another device since.
 *
 * @param changes in the order in which they were made.
 * @param now milliseconds since 1970.
 */
export function findShown(
  entries: readonly PracticeRecord[],
  changes: readonly PracticeChange[],
  now: number,
): PracticeChange[] {
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  const sent = changes.filter(({ isSent }) => isSent);
  return sent.filter((change, index) => {
    const entry = byId.get(entryOf(change));
    // What the server's log does not have yet is all there is of it.
    if (!entry) return false;
    if (change.kind === "log" || now - change.madeAt > mostAge) return true;
    const isOvertaken = sent.slice(index + 1).some((later) => entryOf(later) === entryOf(change));
    return isOvertaken || (entry.removedAt !== null) === (change.kind === "take off");
  });
}
