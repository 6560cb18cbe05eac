import * as Y from "yjs";
import { failure, type Result, success } from "@/lib/score/result";
import { hasGap } from "./merge-updates";
import { type RoomMapName, roomMapNames } from "./room-keys";
import { maxClientClock } from "./room-limits";
import type { RoomProblem } from "./room-problem";

/** One record that an update would change. `undefined` is a record that is not there. */
export interface RecordChange {
  readonly map: RoomMapName;
  readonly key: string;
  readonly before: unknown;
  readonly after: unknown;
  /** The update writes here, but at the same time as what stands already, and that one goes on standing. */
  readonly isOvertaken: boolean;
}

export interface TriedUpdate {
  readonly changes: readonly RecordChange[];
  /** What the update adds to the document, written anew; null when it adds nothing. */
  readonly addition: Uint8Array | null;
}

/**
 * Tries an update on a scratch copy and tells what it would change.
 *
 * @param before the document as it stands; it is only read.
 * @param scratch a copy of `before`. Afterwards it holds the update; after a problem it is spoiled.
 * @returns the changed records and the addition, or why the update cannot be taken: it does not decode, it
 * rests on something missing, or it reaches outside the room's maps.
 */
export function findChangedRecords(
  before: Y.Doc,
  scratch: Y.Doc,
  update: Uint8Array,
): Result<TriedUpdate, RoomProblem> {
  const tried = applyToScratch(scratch, update);
  if (tried === null) return failure({ kind: "unreadable-update" });
  if (hasGap(scratch)) return failure({ kind: "incomplete-update" });
  const stranger = findStranger(scratch, tried.changed);
  if (stranger !== null) return failure({ kind: "unknown-content", name: stranger });
  return success({ changes: listChanges(before, scratch, tried.changed), addition: tried.addition });
}

type ChangedTypes = ReadonlyMap<unknown, ReadonlySet<string | null>>;

function applyToScratch(scratch: Y.Doc, update: Uint8Array) {
  let addition: Uint8Array | null = null;
  let changed: ChangedTypes = new Map();
  const keepAddition = (written: Uint8Array) => {
    addition = written;
  };
  const keepChanged = (transaction: Y.Transaction) => {
    changed = transaction.changed;
  };
  scratch.on("update", keepAddition);
  scratch.on("afterTransaction", keepChanged);
  try {
    if (hasImpossibleClock(update)) return null;
    Y.applyUpdate(scratch, update);
    return { addition: addition as Uint8Array | null, changed };
  } catch {
    // Whatever a decoder meets in foreign bytes, the answer is the same: they are not an update.
    return null;
  } finally {
    scratch.off("update", keepAddition);
    scratch.off("afterTransaction", keepChanged);
  }
}

/** Clocks so high that Yjs would lose count would poison the document for its other readers. */
function hasImpossibleClock(update: Uint8Array): boolean {
  const { to } = Y.parseUpdateMeta(update);
  return [...to.values()].some((clock) => !(clock <= maxClientClock));
}

/** The first thing in the document that is not a record in one of the room's maps, or null. */
function findStranger(scratch: Y.Doc, changed: ChangedTypes): string | null {
  const known = new Set<string>(roomMapNames);
  for (const name of scratch.share.keys()) if (!known.has(name)) return name;
  const maps = new Set<unknown>(roomMapNames.map((name) => scratch.getMap(name)));
  for (const [type, keys] of changed) {
    if (!maps.has(type)) return "nested content";
    if (keys.has(null)) return "list content";
  }
  return null;
}

function listChanges(before: Y.Doc, scratch: Y.Doc, changed: ChangedTypes): RecordChange[] {
  return roomMapNames.flatMap((map) => {
    const [old, young] = [before.getMap(map), scratch.getMap(map)];
    const keys = [...(changed.get(young) ?? [])].filter((key) => key !== null);
    return keys
      .map((key) => {
        const isOvertaken = old.has(key) && isSameWriting(old, young, key);
        return { map, key, before: old.get(key), after: young.get(key), isOvertaken };
      })
      .filter((change) => change.before !== undefined || change.after !== undefined);
  });
}

/** `_map` tells which write a value came from; the public interface tells only the value. */
function isSameWriting(a: Y.Map<unknown>, b: Y.Map<unknown>, key: string): boolean {
  const [one, other] = [a._map.get(key), b._map.get(key)];
  if (!one || !other || one.deleted || other.deleted) return false;
  return one.id.client === other.id.client && one.id.clock === other.id.clock;
}
