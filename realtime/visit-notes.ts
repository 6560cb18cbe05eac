import { type LeftRoom, noteVisit } from "@/lib/store/room/note-visit";
import { type Log, nameFailure } from "./log-line";

/** Writes down who left which room and how far they had seen it. Nobody waits for it, and a failure costs no more than the note. */
export class VisitNotes {
  readonly #underWay = new Set<Promise<void>>();

  constructor(private readonly log: Log) {}

  note(left: LeftRoom): void {
    const writing = noteVisit(left)
      .catch((error: unknown) =>
        this.log({ what: "visit-not-noted", pieceId: left.pieceId, detail: nameFailure(error) }),
      )
      .finally(() => this.#underWay.delete(writing));
    this.#underWay.add(writing);
  }

  /** Settles when everything noted until now is written or given up. */
  async whenWritten(): Promise<void> {
    await Promise.all(this.#underWay);
  }
}
