import { canReadDiscussion } from "@/lib/room/room-member";
import { placeOf, type RoomProblem, sayRoomProblem } from "@/lib/room/room-problem";
import { endOvertakenApprovals } from "@/lib/store/editions/end-overtaken-approvals";
import type { CloseReason } from "./close-codes";
import type { Connection } from "./connection";
import type { GroupAppend } from "./group-append";
import { type Log, nameFailure } from "./log-line";
import type { StoredRoom } from "./persist";
import {
  writeAcknowledgement,
  writeRefused,
  writeSyncStep1,
  writeSyncStep2,
  writeUpdate,
  writeWelcome,
} from "./protocol";
import { RoomDocument, type Taken } from "./room-document";
import type { RoomMetrics } from "./room-metrics";
import { RoomPeople, type TellOthers } from "./room-people";

export interface RoomOptions {
  readonly pieceId: string;
  /** Writes to the logs of all rooms. */
  readonly journal: GroupAppend;
  readonly stored: StoredRoom;
  readonly log: Log;
  /** Tells other nodes who is here. */
  readonly tellOthers: TellOthers;
  readonly metrics: RoomMetrics;
  /** The room was started anew elsewhere: this one is over. */
  readonly onOtherEpoch: () => void;
}

/** The state vector of whoever has nothing. */
const nothingKnown = new Uint8Array([0]);

/** A Yjs update (v1) of no structs and no deletions. */
const nothingNew = new Uint8Array([0, 0]);

/** The room of one piece on this node: its document, and the people in it. */
export class Room {
  readonly pieceId: string;
  readonly epoch: number;
  readonly connections = new Set<Connection>();
  /** Who is here, on this node and on others. */
  readonly people: RoomPeople;
  readonly #document: RoomDocument;
  readonly #options: RoomOptions;
  /** Everything that changes the document happens one after the other. */
  #work: Promise<void> = Promise.resolve();
  #isCatchUpDue = false;
  #isReviewDue = false;

  constructor(options: RoomOptions) {
    const { pieceId, journal, stored, tellOthers } = options;
    this.#options = options;
    this.pieceId = pieceId;
    this.epoch = stored.epoch;
    this.people = new RoomPeople({ pieceId, connections: this.connections, tellOthers });
    this.#document = new RoomDocument(pieceId, journal, stored, (update) => this.#sendUpdate(null, update));
  }

  /** The last entry of the log that is in the document. */
  get sequence(): number {
    return this.#document.sequence;
  }

  join(connection: Connection): void {
    this.connections.add(connection);
    connection.send(writeWelcome({ epoch: this.epoch, member: connection.member }));
    this.askForMissing(connection);
    this.people.join(connection);
  }

  leave(connection: Connection): void {
    if (this.connections.delete(connection)) this.people.leave(connection);
  }

  /** Somebody goes on under another role or name. Whoever may read the discussion now may not have had it before. */
  welcomeAnew(connection: Connection): void {
    if (!this.connections.has(connection)) return;
    this.people.rename(connection);
    connection.send(writeWelcome({ epoch: this.epoch, member: connection.member }));
    if (canReadDiscussion(connection.member.role)) this.sendMissing(connection, nothingKnown);
  }

  /** Says what is stored; the client answers with what it has beyond that. */
  askForMissing(connection: Connection): void {
    connection.send(writeSyncStep1(this.#document.stateVector()));
  }

  /** @throws whatever Yjs throws when `stateVector` is not one. */
  sendMissing(connection: Connection, stateVector: Uint8Array): void {
    const missing = this.#document.missingSince(stateVector);
    connection.send(writeSyncStep2(canReadDiscussion(connection.member.role) ? missing : nothingNew));
  }

  /**
   * Stores an update, acknowledges it and sends it on, after those that came before it.
   *
   * @param isWhole whether it is the answer to `askForMissing`: then nothing it rests on can still arrive.
   */
  submit(writer: Connection, update: Uint8Array, isWhole: boolean): void {
    const receivedAt = performance.now();
    this.#next(async () => {
      if (!writer.isWelcome) return;
      try {
        const taken = await this.#document.take(writer, update, this.#presentOwnerOf);
        if (taken.kind === "stored") this.#options.metrics.stored((performance.now() - receivedAt) / 1000);
        this.#tell(writer, taken, isWhole);
      } catch (error) {
        writer.note("not-stored", nameFailure(error));
        // The client keeps what it wrote and brings it when it comes back.
        writer.close("roomUnavailable");
      }
    });
  }

  /** Takes in what other nodes appended. What cannot be read now is read at the next occasion. */
  catchUp(): void {
    if (this.#isCatchUpDue) return;
    this.#isCatchUpDue = true;
    this.#next(async () => {
      this.#isCatchUpDue = false;
      try {
        await this.#document.readOn();
      } catch (error) {
        this.#options.log({ what: "not-caught-up", pieceId: this.pieceId, detail: nameFailure(error) });
      }
    });
  }

  /** Whoever agreed to freeze what stood before is asked again. A yes that no longer fits is refused in any case. */
  #reviewApprovals(): void {
    if (this.#isReviewDue) return;
    this.#isReviewDue = true;
    this.#next(async () => {
      this.#isReviewDue = false;
      try {
        await endOvertakenApprovals(this.pieceId);
      } catch (error) {
        this.#options.log({
          what: "approvals-not-reviewed",
          pieceId: this.pieceId,
          detail: nameFailure(error),
        });
      }
    });
  }

  sendToAll(frame: Uint8Array): void {
    for (const connection of this.connections) connection.send(frame);
  }

  closeAll(reason: CloseReason): void {
    for (const connection of this.connections) connection.close(reason);
  }

  /** Settles when everything that was submitted until now is stored or refused. */
  whenQuiet(): Promise<void> {
    return this.#work;
  }

  destroy(): void {
    this.people.close();
    this.#document.destroy();
  }

  readonly #presentOwnerOf = (clientId: number) => this.people.ownerOf(clientId);

  #next(step: () => Promise<void>): void {
    this.#work = this.#work.then(step);
  }

  #tell(writer: Connection, taken: Taken, isWhole: boolean): void {
    switch (taken.kind) {
      case "stored":
        writer.send(writeAcknowledgement(taken));
        this.#sendUpdate(writer, taken.addition);
        if (taken.isOfEdition) this.#reviewApprovals();
        break;
      case "known":
        writer.send(writeAcknowledgement(taken));
        break;
      case "refused":
        this.#refuse(writer, taken.problem, isWhole);
        break;
      case "other-epoch":
        this.#options.onOtherEpoch();
        break;
      case "signed-out":
        writer.close("signedOut");
        break;
      case "not-a-member":
        writer.close("notAMember");
        break;
    }
  }

  #refuse(writer: Connection, problem: RoomProblem, isWhole: boolean): void {
    if (problem.kind === "incomplete-update" && !isWhole) {
      this.askForMissing(writer);
      return;
    }
    const { kind } = problem;
    writer.note("refused", kind);
    this.#options.metrics.refused(kind);
    writer.send(writeRefused({ kind, sentence: sayRoomProblem(problem), place: placeOf(problem) }));
    writer.close("refused");
  }

  /** To everyone but its writer, and to nobody who does not read the discussion. */
  #sendUpdate(writer: Connection | null, update: Uint8Array): void {
    const frame = writeUpdate(update);
    for (const connection of this.connections)
      if (connection !== writer && canReadDiscussion(connection.member.role)) connection.send(frame);
  }
}
