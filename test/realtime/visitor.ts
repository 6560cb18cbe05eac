import * as decoding from "lib0/decoding";
import WebSocket from "ws";
import { WebsocketProvider } from "y-websocket";
import type * as Y from "yjs";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { clocksOf, countUnsaved, noteStored, type StoredClocks } from "@/lib/room/stored-clocks";
import {
  type Acknowledgement,
  messageTypes,
  type Refusal,
  readAcknowledgement,
  readPieceChanged,
  readRefused,
  readWelcome,
  type Welcome,
} from "@/realtime/protocol";
import { type Guest, publicUrl, type RunningNode } from "@/test/realtime/house";

/** A WebSocket that shows a guest's cookie at the door, as a browser would. */
export function socketOf(cookie: string | undefined, origin = publicUrl): typeof globalThis.WebSocket {
  class CookieSocket extends WebSocket {
    constructor(address: string | URL, protocols?: string | string[]) {
      super(address, protocols, { headers: { ...(cookie ? { cookie } : {}), origin } });
    }
  }
  return CookieSocket as unknown as typeof globalThis.WebSocket;
}

/** A y-websocket client in a room, and everything it was told there. */
export class Visitor {
  readonly doc: Y.Doc;
  readonly provider: WebsocketProvider;
  readonly acknowledgements: Acknowledgement[] = [];
  readonly pieceChanges: string[] = [];
  readonly welcomes: Welcome[] = [];
  readonly refusals: Refusal[] = [];
  readonly closes: number[] = [];
  stored: StoredClocks = new Map();
  readonly #watchers = new Set<() => void>();

  constructor(
    node: Pick<RunningNode, "url"> & { readonly origin?: string },
    pieceId: string,
    readonly guest: Guest,
    doc: Y.Doc = openRoomDoc(),
    /** Shown instead of the guest's cookie. */
    ticket?: string,
  ) {
    this.doc = doc;
    this.provider = new WebsocketProvider(node.url, pieceId, doc, {
      WebSocketPolyfill: socketOf(ticket === undefined ? guest.cookie : undefined, node.origin),
      params: ticket === undefined ? {} : { ticket },
      disableBc: true,
      connect: false,
      maxBackoffTime: 200,
    });
    this.#listen();
    this.provider.connect();
  }

  /** How many writes of this client are not acknowledged. */
  get unsaved(): number {
    return countUnsaved(this.doc, this.stored);
  }

  /** Waits for the moment at which `isSo` holds: it is asked after each thing that happens here. */
  until(isSo: () => boolean): Promise<void> {
    return new Promise((resolve) => {
      const look = () => {
        if (!isSo()) return;
        this.#watchers.delete(look);
        resolve();
      };
      this.#watchers.add(look);
      look();
    });
  }

  leave(): void {
    this.provider.destroy();
  }

  #listen(): void {
    const { provider, doc } = this;
    const stir = () => {
      for (const look of [...this.#watchers]) look();
    };
    this.#handle(messageTypes.acknowledgement, (decoder) => {
      const acknowledgement = readAcknowledgement(decoder);
      this.acknowledgements.push(acknowledgement);
      this.stored = noteStored(this.stored, acknowledgement.stored);
    });
    this.#handle(messageTypes.pieceChanged, (decoder) => this.pieceChanges.push(readPieceChanged(decoder)));
    this.#handle(messageTypes.welcome, (decoder) => this.welcomes.push(readWelcome(decoder)));
    this.#handle(messageTypes.refused, (decoder) => this.refusals.push(readRefused(decoder)));
    provider.on("connection-close", (event) => event && this.closes.push(event.code));
    for (const name of ["connection-close", "closed", "sync", "status", "connection-error"] as const)
      provider.on(name, stir);
    provider.awareness.on("change", stir);
    doc.on("update", (update: Uint8Array, origin: unknown) => {
      // What the server sends is stored.
      if (origin === provider) this.stored = noteStored(this.stored, clocksOf(update));
      stir();
    });
    this.#stir = stir;
  }

  #stir: () => void = () => {};

  #handle(type: number, take: (decoder: decoding.Decoder) => void): void {
    this.provider.messageHandlers[type] = (_encoder: unknown, decoder: decoding.Decoder) => {
      take(decoder);
      this.#stir();
    };
  }
}

/** A socket without a client behind it, to send whatever bytes one likes. */
export class RawVisitor {
  readonly frames: Uint8Array[] = [];
  closedWith: number | null = null;
  readonly socket: WebSocket;
  readonly #watchers = new Set<() => void>();

  constructor(address: string, headers: Record<string, string>) {
    this.socket = new WebSocket(address, { headers });
    const stir = () => {
      for (const look of [...this.#watchers]) look();
    };
    this.socket.on("message", (data: Buffer) => {
      this.frames.push(data);
      stir();
    });
    this.socket.on("close", (code) => {
      this.closedWith = code;
      stir();
    });
    this.socket.on("error", stir);
    this.socket.on("open", stir);
  }

  /** As `Visitor.until`. */
  until(isSo: () => boolean): Promise<void> {
    return new Promise((resolve) => {
      const look = () => {
        if (!isSo()) return;
        this.#watchers.delete(look);
        resolve();
      };
      this.#watchers.add(look);
      look();
    });
  }

  typesReceived(): number[] {
    return this.frames.map((frame) => decoding.readVarUint(decoding.createDecoder(frame)));
  }
}

/** Knocks at a room with these headers; the HTTP status of the answer (101 when let in). */
export function knock(address: string, headers: Record<string, string>): Promise<number> {
  return new Promise((resolve, reject) => {
    const socket = new WebSocket(address, { headers });
    socket.on("open", () => {
      resolve(101);
      socket.terminate();
    });
    socket.on("unexpected-response", (request, response) => {
      resolve(response.statusCode ?? 0);
      request.destroy();
    });
    socket.on("error", reject);
  });
}
