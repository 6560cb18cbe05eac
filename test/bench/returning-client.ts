import * as decoding from "lib0/decoding";
import WebSocket from "ws";
import { WebsocketProvider } from "y-websocket";
import type * as Y from "yjs";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { messageTypes, peekSyncStep1, readAcknowledgement } from "@/realtime/protocol";
import type { RoomGuest } from "./room-people";
import { origin } from "./room-servers";
import type { Vouched } from "./vouched";

/** A y-websocket client as the product's pages have it: it keeps what it wrote and comes back by itself. */
export class ReturningClient {
  readonly doc: Y.Doc = openRoomDoc();
  readonly #provider: WebsocketProvider;
  readonly #breaths = this.doc.getMap("breaths");
  /** The breaths written here; each is one write, so its place is its clock. */
  readonly #written: string[] = [];
  #stored = 0;

  constructor(
    address: string,
    readonly pieceId: string,
    private readonly guest: RoomGuest,
    private readonly vouched: Vouched,
  ) {
    this.#provider = new WebsocketProvider(address, pieceId, this.doc, {
      WebSocketPolyfill: socketOf(guest.cookie),
      disableBc: true,
    });
    // Who is here is not what is looked at.
    this.#provider.awareness.setLocalState(null);
    for (const type of [messageTypes.welcome, messageTypes.pieceChanged])
      this.#provider.messageHandlers[type] = () => {};
    this.#provider.messageHandlers[messageTypes.acknowledgement] = (_encoder, decoder) => {
      const { sequence, stored } = readAcknowledgement(decoder);
      this.#takeStored(stored, sequence);
    };
    const sync = this.#provider.messageHandlers[messageTypes.sync];
    this.#provider.messageHandlers[messageTypes.sync] = (encoder, decoder, ...rest) => {
      // Whoever comes back is told what was stored before: no acknowledgement says it again.
      const stateVector = peekSyncStep1(decoder);
      if (stateVector) this.#takeStored(stateVector, null);
      sync?.(encoder, decoder, ...rest);
    };
    this.#breaths.observe((event, transaction) => {
      if (transaction.origin !== this.#provider) return;
      for (const id of event.keysChanged) vouched.seen(this.pieceId, id);
    });
  }

  get isPlayer(): boolean {
    return this.guest.role !== "coach";
  }

  get isConnected(): boolean {
    return this.#provider.wsconnected;
  }

  get isSynced(): boolean {
    return this.#provider.synced;
  }

  /** How many breaths were written here and not acknowledged. */
  get unsaved(): number {
    return this.#written.length - this.#stored;
  }

  /** Marks one breath: about 130 bytes on the wire. */
  write(): string {
    const id = this.vouched.nextId();
    const at = { barIndex: this.#written.length % 400, offset: "1/2" };
    this.#written.push(id);
    this.#breaths.set(id, { id, authorId: this.guest.userId, at, deletedAt: null });
    return id;
  }

  close(): void {
    this.#provider.destroy();
    this.doc.destroy();
  }

  #takeStored(stateVector: Uint8Array, sequence: number | null): void {
    const end = readClock(stateVector, this.doc.clientID);
    for (; this.#stored < end; this.#stored += 1) {
      const id = this.#written[this.#stored];
      if (id !== undefined) this.vouched.stored(this.pieceId, id, sequence);
    }
  }
}

/** How far a state vector goes for one client. */
function readClock(stateVector: Uint8Array, client: number): number {
  const decoder = decoding.createDecoder(stateVector);
  for (let left = decoding.readVarUint(decoder); left > 0; left -= 1) {
    const [id, clock] = [decoding.readVarUint(decoder), decoding.readVarUint(decoder)];
    if (id === client) return clock;
  }
  return 0;
}

function socketOf(cookie: string): typeof globalThis.WebSocket {
  class CookieSocket extends WebSocket {
    constructor(address: string | URL, protocols?: string | string[]) {
      super(address, protocols, { headers: { cookie, origin }, perMessageDeflate: false });
    }
  }
  return CookieSocket as unknown as typeof globalThis.WebSocket;
}
