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
  /** How many writes each Yjs client has made that the addition has writes of. */
  readonly clocks: Map<number, number>;
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
  const trace = applyToScratch(scratch, update);
  if (trace === null) return failure({ kind: "unreadable-update" });
  if (hasGap(scratch)) return failure(isImpossible(update) ? unreadable : { kind: "incomplete-update" });
  const { addition, changed } = trace;
  const clocks = findMovedClocks(trace);
  if (hasImpossibleClock(clocks)) return failure(unreadable);
  const stranger = findStranger(scratch, changed);
  if (stranger !== null) return failure({ kind: "unknown-content", name: stranger });
  return success({ changes: listChanges(before, scratch, changed), addition, clocks });
}

const unreadable: RoomProblem = { kind: "unreadable-update" };

type ChangedTypes = ReadonlyMap<unknown, ReadonlySet<string | null>>;
type Clocks = ReadonlyMap<number, number>;

/** What an update left behind in the scratch copy. */
interface Trace {
  readonly addition: Uint8Array | null;
  readonly changed: ChangedTypes;
  readonly clocksBefore: Clocks;
  readonly clocksAfter: Clocks;
}

const nothing: Trace = {
  addition: null,
  changed: new Map(),
  clocksBefore: new Map(),
  clocksAfter: new Map(),
};

/** Null when it cannot be decoded, or when Yjs had to go over it a second time, as it does with texts only. */
function applyToScratch(scratch: Y.Doc, update: Uint8Array): Trace | null {
  let trace = nothing;
  let additions = 0;
  const keep = (addition: Uint8Array, _origin: unknown, _doc: Y.Doc, transaction: Y.Transaction) => {
    const { changed, beforeState, afterState } = transaction;
    trace = { addition, changed, clocksBefore: beforeState, clocksAfter: afterState };
    additions += 1;
  };
  scratch.on("update", keep);
  try {
    Y.applyUpdate(scratch, update);
    return additions > 1 ? null : trace;
  } catch {
    // Whatever a decoder meets in foreign bytes, the answer is the same: they are not an update.
    return null;
  } finally {
    scratch.off("update", keep);
  }
}

function findMovedClocks({ clocksBefore, clocksAfter }: Trace): Map<number, number> {
  const moved = new Map<number, number>();
  for (const [client, clock] of clocksAfter) if (clocksBefore.get(client) !== clock) moved.set(client, clock);
  return moved;
}

/** Clocks so high that Yjs would lose count would poison the document for its other readers. */
function hasImpossibleClock(clocks: Clocks): boolean {
  for (const clock of clocks.values()) if (!(clock <= maxClientClock)) return true;
  return false;
}

/** Whether an update that rests on something missing rests on what can never come. */
function isImpossible(update: Uint8Array): boolean {
  return hasImpossibleClock(Y.parseUpdateMeta(update).to);
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
  const changes: RecordChange[] = [];
  for (const map of roomMapNames) {
    const young = scratch.getMap(map);
    const keys = changed.get(young);
    if (!keys) continue;
    const old = before.getMap(map);
    for (const key of keys) {
      if (key === null) continue;
      const change = { map, key, before: old.get(key), after: young.get(key) };
      if (change.before === undefined && change.after === undefined) continue;
      changes.push({ ...change, isOvertaken: old.has(key) && isSameWriting(old, young, key) });
    }
  }
  return changes;
}

/** `_map` tells which write a value came from; the public interface tells only the value. */
function isSameWriting(a: Y.Map<unknown>, b: Y.Map<unknown>, key: string): boolean {
  const [one, other] = [a._map.get(key), b._map.get(key)];
  if (!one || !other || one.deleted || other.deleted) return false;
  return one.id.client === other.id.client && one.id.clock === other.id.clock;
}
