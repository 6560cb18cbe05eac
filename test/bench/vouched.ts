import * as Y from "yjs";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { readRoomUpdatesAfter } from "@/lib/store/room/read-room-log";

/** What servers have vouched for, and whether the logs have it. All clients of a run share one. */
export class Vouched {
  /** Breath → the entry of the log that its acknowledgement named; null when none was named. */
  readonly #byRoom = new Map<string, Map<string, number | null>>();
  readonly #logs = new Map<string, LogReader>();
  readonly #waiting = new Set<(id: string) => void>();
  #written = 0;
  #vouchedFor = 0;

  /** Breaths that were acknowledged to their writer, or seen by another. */
  get count(): number {
    return this.#vouchedFor;
  }

  get written(): number {
    return this.#written;
  }

  nextId(): string {
    this.#written += 1;
    return `breath-${this.#written}`;
  }

  /** @param sequence null when the server only said that it has it. */
  stored(pieceId: string, id: string, sequence: number | null): void {
    this.#note(pieceId, id, sequence);
    for (const hear of [...this.#waiting]) hear(id);
  }

  seen(pieceId: string, id: string): void {
    if (!this.#roomOf(pieceId).has(id)) this.#note(pieceId, id, null);
  }

  /**
   * When the first breath that was written from now on is acknowledged, by `performance.now()`.
   *
   * @throws Error after a minute.
   */
  untilNextAcknowledged(): Promise<number> {
    const first = this.#written + 1;
    return new Promise((resolve, reject) => {
      const giveUp = setTimeout(() => reject(new Error("nothing is acknowledged any more")), 60_000);
      const hear = (id: string) => {
        if (Number(id.slice("breath-".length)) < first) return;
        this.#waiting.delete(hear);
        clearTimeout(giveUp);
        resolve(performance.now());
      };
      this.#waiting.add(hear);
    });
  }

  /**
   * Breaths that are vouched for and are not in the log where they were said to be. What a client sent a second
   * time, because the log had lost it, stands after the entry that its acknowledgement named.
   */
  async findLost(): Promise<string[]> {
    const lost: string[] = [];
    for (const [pieceId, vouched] of this.#byRoom) {
      const log = this.#logs.get(pieceId) ?? new LogReader(pieceId);
      this.#logs.set(pieceId, log);
      await log.readOn();
      for (const [id, sequence] of vouched) {
        const place = log.places.get(id);
        if (place === undefined || (sequence !== null && place > sequence)) lost.push(id);
      }
    }
    return lost;
  }

  /** The room as its log makes it. */
  logOf(pieceId: string): Y.Doc {
    return this.#logs.get(pieceId)?.doc ?? openRoomDoc();
  }

  #roomOf(pieceId: string): Map<string, number | null> {
    const room = this.#byRoom.get(pieceId) ?? new Map<string, number | null>();
    this.#byRoom.set(pieceId, room);
    return room;
  }

  #note(pieceId: string, id: string, sequence: number | null): void {
    const room = this.#roomOf(pieceId);
    if (!room.has(id)) this.#vouchedFor += 1;
    room.set(id, sequence ?? room.get(id) ?? null);
  }
}

/** Reads one log as it grows, and notes with which entry each breath came. */
class LogReader {
  readonly doc = openRoomDoc();
  readonly places = new Map<string, number>();
  #sequence = 0;

  constructor(private readonly pieceId: string) {
    this.doc.getMap("breaths").observe(({ keysChanged }) => {
      for (const id of keysChanged) if (!this.places.has(id)) this.places.set(id, this.#sequence);
    });
  }

  async readOn(): Promise<void> {
    for (const { sequence, update } of await readRoomUpdatesAfter(this.pieceId, 1, this.#sequence)) {
      this.#sequence = sequence;
      Y.applyUpdate(this.doc, update);
    }
  }
}
