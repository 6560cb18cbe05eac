import * as Y from "yjs";
import { findCommentsTouched } from "@/lib/room/comments-in-changes";
import type { RecordChange } from "@/lib/room/find-changed-records";
import { judgeUpdate, type OwnerOf } from "@/lib/room/judge-update";
import { copyRoomDoc } from "@/lib/room/open-room-doc";
import type { RoomMember } from "@/lib/room/room-member";
import type { RoomProblem } from "@/lib/room/room-problem";
import { clocksOf } from "@/lib/room/stored-clocks";
import { touchesEdition } from "@/lib/room/touches-edition";
import type { AppendAnswer, GroupAppend } from "./group-append";
import { noteOwner, readSince, type StoredRoom } from "./persist";

/** What became of an update. */
export type Taken =
  /** It is in the log at `sequence`; `stored` is the state vector of the clients it came from. */
  | {
      readonly kind: "stored";
      readonly sequence: number;
      readonly addition: Uint8Array;
      readonly stored: Uint8Array;
      /** Something that an edition is made of changed. */
      readonly isOfEdition: boolean;
    }
  /** Everything in it was stored before. */
  | { readonly kind: "known"; readonly sequence: number; readonly stored: Uint8Array }
  | { readonly kind: "refused"; readonly problem: RoomProblem }
  | { readonly kind: "other-epoch" | "not-a-member" | "signed-out" };

/** Whose update it is. */
export interface Writer {
  readonly member: RoomMember;
  /** The log takes nothing more of a session that is over. */
  readonly sessionHash: string;
}

/**
 * The document of a room on this node. It holds what is stored and nothing else: an update becomes part of it
 * only after the log has it. Calls that change it must not overlap.
 */
export class RoomDocument {
  readonly #doc: Y.Doc;
  /** Equal to the document between two updates; each update is tried here first. */
  #scratch: Y.Doc;
  #sequence: number;

  /** @param onForeign hears each update that another node appended, once it is in the document. */
  constructor(
    private readonly pieceId: string,
    private readonly log: GroupAppend,
    private readonly stored: StoredRoom,
    private readonly onForeign: (update: Uint8Array) => void,
  ) {
    this.#doc = stored.doc;
    this.#scratch = copyRoomDoc(stored.doc);
    this.#sequence = stored.sequence;
  }

  /** The last entry of the log that is in the document. */
  get sequence(): number {
    return this.#sequence;
  }

  stateVector(): Uint8Array {
    return Y.encodeStateVector(this.#doc);
  }

  /** @throws whatever Yjs throws when `stateVector` is not one. */
  missingSince(stateVector: Uint8Array): Uint8Array {
    return Y.encodeStateAsUpdate(this.#doc, stateVector);
  }

  /**
   * Tries an update, stores it, and only then takes it in. When another node was first, it is judged anew
   * against what that node wrote.
   *
   * @param presentOwnerOf whose page a Yjs client is that may not have written anything yet.
   * @throws when the database does not answer; the document is then as it was.
   */
  async take(writer: Writer, update: Uint8Array, presentOwnerOf: OwnerOf): Promise<Taken> {
    let isKept = false;
    try {
      const taken = await this.#tryUntilStored(writer, update, presentOwnerOf);
      isKept = taken.kind === "stored" || taken.kind === "known";
      return taken;
    } finally {
      if (!isKept) this.#renewScratch();
    }
  }

  /** Takes in what other nodes appended. @throws when the database does not answer or the log is not whole. */
  async readOn(): Promise<void> {
    for (const { update, userId } of await readSince(this.pieceId, this.stored.epoch, this.#sequence)) {
      Y.applyUpdate(this.#scratch, update);
      this.#apply(update);
      noteOwner(this.stored.owners, { update, userId });
      this.onForeign(update);
    }
  }

  destroy(): void {
    this.#doc.destroy();
    this.#scratch.destroy();
  }

  async #tryUntilStored(writer: Writer, update: Uint8Array, presentOwnerOf: OwnerOf): Promise<Taken> {
    const { member, sessionHash } = writer;
    const ownerOf: OwnerOf = (clientId) => this.stored.owners.get(clientId) ?? presentOwnerOf(clientId);
    for (;;) {
      const judged = judgeUpdate(this.#doc, this.#scratch, update, member, ownerOf);
      if (!judged.ok) return { kind: "refused", problem: judged.problem };
      const { addition, clocks, changes } = judged.value;
      if (addition === null) return { kind: "known", sequence: this.#sequence, stored: clocksOf(update) };
      const appended = await this.#append(member.userId, sessionHash, addition, changes);
      if (appended.ok) {
        this.#apply(addition);
        for (const clientId of clocks.keys()) this.stored.owners.set(clientId, member.userId);
        return {
          ...{ kind: "stored", sequence: this.#sequence, addition, stored: Y.encodeStateVector(clocks) },
          isOfEdition: changes.some(touchesEdition),
        };
      }
      if (appended.problem.kind !== "behind") return { kind: appended.problem.kind };
      this.#renewScratch();
      await this.readOn();
    }
  }

  #append(
    userId: string,
    sessionHash: string,
    update: Uint8Array,
    changes: readonly RecordChange[],
  ): Promise<AppendAnswer> {
    const { pieceId } = this;
    return this.log.append({
      viewer: { userId },
      sessionHash,
      pieceId,
      epoch: this.stored.epoch,
      after: this.#sequence,
      update,
      comments: findCommentsTouched(changes),
    });
  }

  /** The log gives its sequences without gaps, and `after` made sure that this entry is the next. */
  #apply(update: Uint8Array): void {
    Y.applyUpdate(this.#doc, update);
    this.#sequence += 1;
  }

  #renewScratch(): void {
    this.#scratch.destroy();
    this.#scratch = copyRoomDoc(this.#doc);
  }
}
