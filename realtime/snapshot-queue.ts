import { takeRoomSnapshot } from "@/lib/store/room/room-snapshot";
import { type Log, nameFailure } from "./log-line";

export interface SnapshotQueueOptions {
  readonly log: Log;
  /** The room's log is merged up to this entry now. */
  readonly onMerged: (pieceId: string, sequence: number) => void;
  /** A snapshot was taken. */
  readonly onTaken: () => void;
}

export interface DueSnapshot {
  /** How many entries the log must have grown by. */
  readonly least: number;
  /** Whether the last snapshot is of no use. */
  readonly isRenewal: boolean;
}

/** Takes the snapshots of a node, one at a time; nobody waits for them. */
export class SnapshotQueue {
  readonly #due = new Map<string, DueSnapshot>();
  #work: Promise<void> | null = null;
  #isClosed = false;

  constructor(private readonly options: SnapshotQueueOptions) {}

  /** What is asked for again before its turn is taken once. */
  ask(pieceId: string, due: DueSnapshot): void {
    if (this.#isClosed) return;
    const isRenewal = due.isRenewal || this.#due.get(pieceId)?.isRenewal === true;
    this.#due.set(pieceId, { ...due, isRenewal });
    this.#work ??= this.#takeAll().finally(() => {
      this.#work = null;
    });
  }

  /** Waits for the one that is being taken; the others are taken by whoever opens those rooms next. */
  async close(): Promise<void> {
    this.#isClosed = true;
    this.#due.clear();
    await this.#work;
  }

  async #takeAll(): Promise<void> {
    for (let [next] = this.#due; next; [next] = this.#due) {
      const [pieceId, due] = next;
      this.#due.delete(pieceId);
      await this.#take(pieceId, due);
    }
  }

  async #take(pieceId: string, due: DueSnapshot): Promise<void> {
    const { log, onMerged, onTaken } = this.options;
    try {
      const outcome = await takeRoomSnapshot(pieceId, due);
      if (outcome.kind === "taken" || outcome.kind === "recent") onMerged(pieceId, outcome.sequence);
      if (outcome.kind !== "taken") return;
      log({ what: "snapshot-taken", pieceId });
      onTaken();
    } catch (error) {
      log({ what: "no-snapshot", pieceId, detail: nameFailure(error) });
    }
  }
}
