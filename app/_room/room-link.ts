import type * as decoding from "lib0/decoding";
import type * as encoding from "lib0/encoding";
import { WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import { maxUpdateBytes } from "@/lib/room/room-limits";
import { clocksOf } from "@/lib/room/stored-clocks";
import { closeCodes } from "@/realtime/close-codes";
import {
  messageTypes,
  peekSyncStep1,
  type Refusal,
  readAcknowledgement,
  readPieceChanged,
  readRefused,
  readWelcome,
  type Welcome,
  writeSyncStep1,
} from "@/realtime/protocol";

/** What a link to a room tells. */
export interface LinkEvents {
  /** These clocks (a state vector) are in the server's log. */
  onStored(stateVector: Uint8Array): void;
  onWelcome(welcome: Welcome): void;
  onPieceChanged(what: string): void;
  /** The server did not take something; it takes nothing more until the document is made anew. */
  onRefused(refusal: Refusal): void;
  /** The server's room is another one than that which the document was copied from. */
  onOtherEpoch(): void;
  /** The person no longer belongs to the piece. */
  onNotAMember(): void;
  /** An attempt to connect ended before it came to anything: a browser does not say what the server answered. */
  onNotLetIn(): void;
  onChange(): void;
}

export interface LinkOptions {
  readonly address: string;
  readonly pieceId: string;
  readonly doc: Y.Doc;
  /** Epoch of the copy in `doc`; null when it is new. */
  readonly epoch: number | null;
  readonly WebSocketPolyfill?: typeof WebSocket;
  /** How long a socket may say nothing when it is asked, before it is replaced, in milliseconds. */
  readonly answerMs?: number;
  readonly events: LinkEvents;
}

/** RFC 6455: a frame was larger than the server takes. */
const frameTooLarge = 1009;

const tooMuchAtOnce: Refusal = {
  kind: "update-too-large",
  sentence: "This was too much to send at once.",
  place: null,
};

const defaultAnswerMs = 3_000;

/** A y-websocket client that also hears what this product's server says. */
export class RoomLink {
  readonly provider: WebsocketProvider;
  /** The server closed for good; only the person can change that. */
  isTurnedAway = false;
  /** Whether a connection ever failed or ended: before that one is still connecting. */
  hasFailed = isWithoutNetwork();
  #probe: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly options: LinkOptions) {
    const { address, pieceId, doc, epoch, WebSocketPolyfill } = options;
    this.provider = new WebsocketProvider(address, pieceId, doc, {
      connect: false,
      // Tabs share through the server: it alone knows what is stored.
      disableBc: true,
      params: epoch === null ? {} : { epoch: String(epoch) },
      ...(WebSocketPolyfill ? { WebSocketPolyfill } : {}),
    });
    this.#listen();
    this.provider.connect();
  }

  /** From now on the server is asked for the room of this epoch only. */
  keepEpoch(epoch: number): void {
    this.provider.params = { epoch: String(epoch) };
  }

  /**
   * The device is back from sleep or from a dead spot. Tries at once instead of at the next turn; a socket that
   * seems alive is asked, and replaced when nothing comes: after sleep nobody tells it that the other end is gone.
   */
  wake(): void {
    const { provider } = this;
    const { ws } = provider;
    if (!provider.shouldConnect) return;
    if (ws === null) {
      provider.connect();
      return;
    }
    const askedAt = Date.now();
    // The answer to 0/0 is never left out, whatever there is to say.
    if (ws.readyState === ws.OPEN)
      ws.send(new Uint8Array(writeSyncStep1(Y.encodeStateVector(this.options.doc))));
    clearTimeout(this.#probe);
    this.#probe = setTimeout(() => {
      if (provider.ws === ws && provider.wsLastMessageReceived < askedAt) this.#replace();
    }, this.options.answerMs ?? defaultAnswerMs);
  }

  /** The server was found not to let this person in: nothing more is tried. */
  giveUp(): void {
    this.isTurnedAway = true;
    this.provider.disconnect();
  }

  close(): void {
    clearTimeout(this.#probe);
    this.provider.destroy();
    this.provider.awareness.destroy();
  }

  #replace(): void {
    this.provider.disconnect();
    this.provider.connect();
  }

  #listen(): void {
    const { provider } = this;
    const { doc, events } = this.options;
    this.#hearMessages();
    doc.on("update", (update: Uint8Array, origin: unknown) => {
      // What the server sends is in its log.
      if (origin === provider) events.onStored(clocksOf(update));
      events.onChange();
    });
    provider.awareness.on("change", events.onChange);
    provider.on("sync", events.onChange);
    provider.on("connection-close", (event) => {
      this.hasFailed = true;
      if (event?.code === frameTooLarge) events.onRefused(tooMuchAtOnce);
      // y-websocket tells of the end before it takes note of it.
      else if (event && !provider.wsconnected) events.onNotLetIn();
      events.onChange();
    });
    provider.on("closed", ({ code }) => this.#turnAway(code));
  }

  #turnAway(code: number): void {
    const { events } = this.options;
    if (code === closeCodes.otherEpoch) events.onOtherEpoch();
    // After a refusal the document is made anew, and with it the link.
    else if (code !== closeCodes.refused) this.isTurnedAway = true;
    if (code === closeCodes.notAMember) events.onNotAMember();
    events.onChange();
  }

  #hearMessages(): void {
    const { provider } = this;
    const { events } = this.options;
    const sync = provider.messageHandlers[messageTypes.sync];
    if (!sync) throw new RangeError("y-websocket handles no sync messages");
    provider.messageHandlers[messageTypes.sync] = (encoder, decoder, ...rest) => {
      const stateVector = peekSyncStep1(decoder);
      if (stateVector) events.onStored(stateVector);
      if (stateVector && this.#isTooMuch(stateVector)) events.onRefused(tooMuchAtOnce);
      else sync(encoder, decoder, ...rest);
    };
    this.#on(messageTypes.acknowledgement, (decoder) => events.onStored(readAcknowledgement(decoder).stored));
    this.#on(messageTypes.pieceChanged, (decoder) => events.onPieceChanged(readPieceChanged(decoder)));
    this.#on(messageTypes.welcome, (decoder) => events.onWelcome(readWelcome(decoder)));
    this.#on(messageTypes.refused, (decoder) => events.onRefused(readRefused(decoder)));
  }

  /** Whether what the server lacks is more than it takes at once. */
  #isTooMuch(stateVector: Uint8Array): boolean {
    return Y.encodeStateAsUpdate(this.options.doc, stateVector).byteLength > maxUpdateBytes;
  }

  #on(type: number, hear: (decoder: decoding.Decoder) => void): void {
    this.provider.messageHandlers[type] = (_encoder: encoding.Encoder, decoder: decoding.Decoder) =>
      hear(decoder);
  }
}

/** Whether the browser knows that it has no network: then nothing need be tried before that is said. */
function isWithoutNetwork(): boolean {
  return typeof navigator !== "undefined" && navigator.onLine === false;
}
