import { readRoomHeads } from "@/lib/store/room/read-room-heads";
import type { GroupAppend } from "./group-append";
import type { Log } from "./log-line";
import { loadRoom } from "./persist";
import { Room } from "./room";
import type { RoomMetrics } from "./room-metrics";
import type { TellOthers } from "./room-people";
import { SnapshotQueue } from "./snapshot-queue";

export interface RegistryOptions {
  /** Writes to the logs of all rooms. */
  readonly journal: GroupAppend;
  readonly idleRoomMs: number;
  readonly log: Log;
  /** Tells other nodes who is in a room here. */
  readonly tellOthers: TellOthers;
  readonly metrics: RoomMetrics;
}

/** A log that grew by this much since its snapshot gets a new one when its room is left, or while it stays open. */
const worthASnapshot = { left: 100, open: 300 } as const;

/** And by this part of itself: merging it all again and again costs the less the longer it is. */
const partWorthASnapshot = 1 / 8;

/** The rooms that are open on this node, each loaded once and let go when it has been empty for a while. */
export class RoomRegistry {
  readonly #rooms = new Map<string, Promise<Room | null>>();
  readonly #open = new Map<string, Room>();
  readonly #idle = new Map<string, NodeJS.Timeout>();
  /** Up to which entry each open room's log is in a snapshot. */
  readonly #merged = new Map<string, number>();
  readonly #snapshots: SnapshotQueue;

  constructor(private readonly options: RegistryOptions) {
    this.#snapshots = new SnapshotQueue({
      log: options.log,
      onMerged: (pieceId, sequence) => this.#open.has(pieceId) && this.#merged.set(pieceId, sequence),
      onTaken: () => options.metrics.snapshotTaken(),
    });
  }

  /**
   * The room of a piece; null when there is no such piece.
   *
   * @throws when it cannot be loaded. The next call tries again.
   */
  open(pieceId: string): Promise<Room | null> {
    this.#keep(pieceId);
    const known = this.#rooms.get(pieceId);
    if (known) return known;
    const loading = this.#load(pieceId);
    this.#rooms.set(pieceId, loading);
    const forget = () => {
      if (this.#rooms.get(pieceId) === loading) this.#rooms.delete(pieceId);
    };
    loading.then((room) => room ?? forget(), forget);
    return loading;
  }

  /** The room of a piece if it is open here. */
  find(pieceId: string): Room | null {
    return this.#open.get(pieceId) ?? null;
  }

  all(): Room[] {
    return [...this.#open.values()];
  }

  /** To be called when somebody left: an empty room goes after a while. */
  release(room: Room): void {
    if (room.connections.size > 0 || this.#open.get(room.pieceId) !== room) return;
    this.#keep(room.pieceId);
    const timer = setTimeout(() => this.#letGo(room), this.options.idleRoomMs);
    this.#idle.set(room.pieceId, timer.unref());
  }

  /** A room began anew with this epoch. What is being loaded may still be the earlier one. */
  async startAnew(pieceId: string, epoch: number): Promise<void> {
    const room = await this.#rooms.get(pieceId)?.catch(() => null);
    if (room && room.epoch < epoch) this.#startAnew(room);
  }

  /** Compares every open room with its log: what notifications failed to say is found here. */
  async check(): Promise<void> {
    const rooms = new Map(this.#open);
    if (rooms.size === 0) return;
    for (const { pieceId, epoch, sequence } of await readRoomHeads([...rooms.keys()])) {
      const room = rooms.get(pieceId);
      if (!room) continue;
      if (room.epoch !== epoch) this.#startAnew(room);
      else if (sequence > room.sequence) room.catchUp();
      this.#askForSnapshot(room, worthASnapshot.open);
    }
  }

  /** Waits until everything submitted is stored, and lets every room go. */
  async close(): Promise<void> {
    for (const timer of this.#idle.values()) clearTimeout(timer);
    this.#idle.clear();
    await Promise.allSettled(this.#rooms.values());
    for (const room of this.#open.values()) {
      await room.whenQuiet();
      room.destroy();
    }
    this.#rooms.clear();
    this.#open.clear();
    await this.#snapshots.close();
  }

  async #load(pieceId: string): Promise<Room | null> {
    const { journal, log, tellOthers, metrics } = this.options;
    const stored = await loadRoom(pieceId, log);
    if (stored === null) return null;
    const onOtherEpoch = () => this.#startAnew(room);
    const room: Room = new Room({ pieceId, journal, stored, log, tellOthers, metrics, onOtherEpoch });
    this.#open.set(pieceId, room);
    this.#merged.set(pieceId, stored.sequence - stored.sinceSnapshot);
    if (stored.hasBadSnapshot) this.#snapshots.ask(pieceId, { least: 0, isRenewal: true });
    return room;
  }

  /** Somebody comes, or came and left again: whatever was about to end the room no longer does. */
  #keep(pieceId: string): void {
    clearTimeout(this.#idle.get(pieceId));
    this.#idle.delete(pieceId);
  }

  #startAnew(room: Room): void {
    room.closeAll("otherEpoch");
    this.#drop(room);
    void room.whenQuiet().then(() => room.destroy());
  }

  #drop(room: Room): void {
    if (this.#open.get(room.pieceId) !== room) return;
    this.#keep(room.pieceId);
    this.#open.delete(room.pieceId);
    this.#rooms.delete(room.pieceId);
    this.#merged.delete(room.pieceId);
  }

  /** Who comes from now on loads the room anew; what is still being stored here, that room then finds in the log. */
  #letGo(room: Room): void {
    const merged = this.#merged.get(room.pieceId);
    this.#drop(room);
    void room.whenQuiet().then(() => {
      room.destroy();
      this.#askForSnapshot(room, worthASnapshot.left, merged);
    });
  }

  #askForSnapshot({ pieceId, sequence }: Room, worth: number, merged = this.#merged.get(pieceId)): void {
    if (merged === undefined) return;
    const least = Math.max(worth, Math.ceil(sequence * partWorthASnapshot));
    if (sequence - merged >= least) this.#snapshots.ask(pieceId, { least, isRenewal: false });
  }
}
