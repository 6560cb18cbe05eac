import type * as Y from "yjs";
import { readRecord } from "../check-change";
import { hasGap } from "../merge-updates";
import { openRoomDoc } from "../open-room-doc";
import { type RoomMapName, roomMapNames } from "../room-keys";
import { isSameJson } from "../sort-keys";
import { type Writing, type WritingsAt, WritingsReader } from "./list-writings";
import type { RoomChange } from "./room-change";
import type { RoomHistoryEntry } from "./room-history-entry";

/**
 * Everything that ever changed in a room, in the order of its log. What was overtaken at once by a simultaneous
 * writing is told as well. Takes time in proportion to the log.
 *
 * Where the room began anew, only what differs from the end of the epoch before is told, as done by nobody: its
 * first entry is nobody's.
 *
 * @param entries the whole log, in order.
 * @throws Error if the log has a gap.
 */
export function replayRoom(entries: readonly RoomHistoryEntry[]): RoomChange[] {
  const replay = new Replay();
  for (const _turn of replay.play(entries));
  return replay.changes;
}

/** As `replayRoom`, but other work may pass in between. */
export async function replayRoomInTurns(entries: readonly RoomHistoryEntry[]): Promise<RoomChange[]> {
  const replay = new Replay();
  for (const _turn of replay.play(entries)) await new Promise((resolve) => setImmediate(resolve));
  return replay.changes;
}

/** Entries of one turn: some milliseconds, and few enough transactions not to count. */
const entriesATurn = 100;

type Place = Pick<RoomChange, "map" | "key">;

/** A change under construction: that map and records belong together is made sure by `readRecord`. */
interface Told {
  readonly userId: string | null;
  readonly before: unknown;
  readonly after: unknown;
  readonly isOvertaken: boolean;
}

interface Stage {
  readonly doc: Y.Doc;
  readonly reader: WritingsReader;
}

class Replay {
  readonly changes: RoomChange[] = [];
  /** The records that stand, by place. */
  readonly #records = new Map<string, Place & { record: unknown }>();

  *play(entries: readonly RoomHistoryEntry[]): Generator<void> {
    for (const epoch of splitEpochs(entries)) {
      const doc = openRoomDoc();
      const reader = new WritingsReader(doc);
      for (let start = 0; start < epoch.length; start += entriesATurn) {
        doc.transact(() => this.#playTurn(epoch, start, { doc, reader }));
        yield;
      }
      doc.destroy();
    }
  }

  #playTurn(epoch: readonly RoomHistoryEntry[], start: number, { doc, reader }: Stage): void {
    epoch.slice(start, start + entriesATurn).forEach((entry, index) => {
      const places = reader.take(entry.update);
      if (hasGap(doc)) throw new Error("the log of the room has a gap");
      if (start + index === 0) this.#begin(entry, doc);
      for (const place of places) this.#tellPlace(entry, place);
    });
  }

  /** What an epoch began with takes the place of all that stood at the end of the one before. */
  #begin(entry: RoomHistoryEntry, doc: Y.Doc): void {
    const now = listPlaces(doc);
    for (const [name, place] of [...this.#records]) {
      if (now.has(name)) continue;
      const told = { userId: null, before: place.record, after: null, isOvertaken: false };
      this.#tell(entry, place, told);
      this.#records.delete(name);
    }
    for (const place of now.values()) this.#write(entry, place, place.record);
  }

  #tellPlace(entry: RoomHistoryEntry, { map, key, writings, standing }: WritingsAt): void {
    const place = { map, key };
    for (const { value } of standing) {
      const read = readRecord(map, key, value);
      if (read.ok) this.#write(entry, place, read.value);
    }
    const before = this.#records.get(nameOf(place))?.record ?? null;
    for (const after of writings.filter((writing) => !standing.includes(writing)).map(recordOf(place))) {
      // What nobody sees is not checked at the gate; here it passes only in its writer's own name.
      if (after === null || ownerOf(after) !== entry.userId || isSameJson(before, after)) continue;
      this.#tell(entry, place, { userId: entry.userId, before, after, isOvertaken: true });
    }
  }

  #write(entry: RoomHistoryEntry, { map, key }: Place, after: unknown): void {
    const name = nameOf({ map, key });
    const before = this.#records.get(name)?.record ?? null;
    if (isSameJson(before, after)) return;
    this.#records.set(name, { map, key, record: after });
    this.#tell(entry, { map, key }, { userId: entry.userId, before, after, isOvertaken: false });
  }

  #tell({ sequence, epoch, at }: RoomHistoryEntry, { map, key }: Place, told: Told): void {
    this.changes.push({ sequence, epoch, at: at.toISOString(), map, key, ...told } as RoomChange);
  }
}

/** @returns the entries of each epoch, in order. */
export function splitEpochs(entries: readonly RoomHistoryEntry[]): RoomHistoryEntry[][] {
  const epochs: RoomHistoryEntry[][] = [];
  for (const entry of entries) {
    const last = epochs.at(-1);
    if (last?.[0]?.epoch === entry.epoch) last.push(entry);
    else epochs.push([entry]);
  }
  return epochs;
}

function listPlaces(doc: Y.Doc): Map<string, Place & { record: unknown }> {
  const places = new Map<string, Place & { record: unknown }>();
  for (const map of roomMapNames) {
    for (const [key, value] of doc.getMap(map)) {
      const read = readRecord(map, key, value);
      if (read.ok) places.set(nameOf({ map, key }), { map, key, record: read.value });
    }
  }
  return places;
}

function recordOf({ map, key }: Place): (writing: Writing) => unknown {
  return ({ value }) => {
    const read = readRecord(map, key, value);
    return read.ok ? read.value : null;
  };
}

function ownerOf(record: unknown): string | undefined {
  const { authorId, byId } = record as { authorId?: string; byId?: string };
  return authorId ?? byId;
}

function nameOf({ map, key }: { map: RoomMapName; key: string }): string {
  return `${map} ${key}`;
}
