import * as decoding from "lib0/decoding";
import WebSocket from "ws";
import * as Y from "yjs";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import {
  messageTypes,
  readAcknowledgement,
  syncTypes,
  writeSyncStep1,
  writeSyncStep2,
  writeUpdate,
} from "@/realtime/protocol";
import type { RoomGuest } from "./room-people";
import type { Tally } from "./tally";

export interface RoomClientOptions {
  readonly address: string;
  readonly origin: string;
  readonly guest: RoomGuest;
  readonly tally: Tally;
  /**
   * How a writer knows that an update was taken: the product says so; the server in memory sends every update
   * back to its writer too.
   */
  readonly vouching: "acknowledgement" | "echo";
}

/** A client reduced to what is measured: a document, a socket, and a look at what each update brought. */
export class RoomClient {
  readonly doc = openRoomDoc();
  readonly ready: Promise<void>;
  /** Settles when the socket is closed. */
  readonly gone: Promise<void>;
  readonly #socket: WebSocket;
  readonly #breaths = this.doc.getMap("breaths");
  /** Numbers of the breaths that were written here and not vouched for, in order. */
  readonly #sent: number[] = [];
  #vouchedFor = 0;
  #tellReady: () => void = () => {};

  constructor(private readonly options: RoomClientOptions) {
    const { address, origin, guest } = options;
    const headers = { cookie: guest.cookie, origin };
    this.#socket = new WebSocket(address, { headers, perMessageDeflate: false });
    this.ready = new Promise((resolve, reject) => {
      this.#tellReady = resolve;
      this.#socket.on("error", reject);
      this.#socket.on("close", (code) => reject(new Error(`closed with ${code}`)));
    });
    this.ready.catch(() => {});
    this.gone = new Promise((resolve) => this.#socket.on("close", () => resolve()));
    this.#socket.on("open", () => this.#socket.send(writeSyncStep1(Y.encodeStateVector(this.doc))));
    this.#socket.on("message", (frame: Buffer) => this.#take(frame));
    this.doc.on("afterTransaction", (transaction) => this.#look(transaction));
  }

  get isPlayer(): boolean {
    return this.options.guest.role !== "coach";
  }

  /** Marks one breath: about 130 bytes on the wire. */
  write(): void {
    const { tally, guest } = this.options;
    const { number, id } = tally.write();
    this.#sent.push(number);
    const at = { barIndex: number % 400, offset: "1/2" };
    // Heard only now: an update that nobody hears of is not written out.
    this.doc.once("update", (update: Uint8Array) => this.#socket.send(writeUpdate(update)));
    this.#breaths.set(id, { id, authorId: guest.userId, at, deletedAt: null });
  }

  close(): void {
    this.#socket.terminate();
    this.doc.destroy();
  }

  #take(frame: Buffer): void {
    const decoder = decoding.createDecoder(frame);
    const type = decoding.readVarUint(decoder);
    if (type === messageTypes.acknowledgement) this.#takeAcknowledgement(readAcknowledgement(decoder).stored);
    else if (type === messageTypes.sync) this.#takeSync(decoder);
  }

  /** Each breath is one write of this client's, so its clock counts them. */
  #takeAcknowledgement(stored: Uint8Array): void {
    const held = Y.decodeStateVector(stored).get(this.doc.clientID) ?? 0;
    while (this.#vouchedFor < held) this.#takeVouch();
  }

  #takeVouch(): void {
    this.#vouchedFor += 1;
    const number = this.#sent.shift();
    if (number !== undefined) this.options.tally.saved(number);
  }

  #takeSync(decoder: decoding.Decoder): void {
    const type = decoding.readVarUint(decoder);
    const bytes = decoding.readVarUint8Array(decoder);
    if (type === syncTypes.step1) {
      this.#socket.send(writeSyncStep2(Y.encodeStateAsUpdate(this.doc, bytes)));
      return;
    }
    Y.applyUpdate(this.doc, bytes, this);
    if (type === syncTypes.step2) this.#tellReady();
  }

  /** What came from the server and brought nothing is, in memory, one's own. */
  #look(transaction: Y.Transaction): void {
    if (transaction.origin !== this) return;
    const keys = (transaction.changed as ReadonlyMap<unknown, Set<string | null>>).get(this.#breaths);
    if (keys) for (const key of keys) this.options.tally.seen(key);
    else if (this.options.vouching === "echo" && this.#sent.length > 0) this.#takeVouch();
  }
}
