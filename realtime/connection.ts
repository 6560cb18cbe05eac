import type { RawData, WebSocket } from "ws";
import type { RoomMember } from "@/lib/room/room-member";
import { type CloseReason, closeCodes, closeWords } from "./close-codes";
import type { Log } from "./log-line";
import type { RealtimeLimits } from "./realtime-limits";
import type { RoomMetrics } from "./room-metrics";
import { TokenBucket } from "./token-bucket";

export interface ConnectionOptions {
  readonly socket: WebSocket;
  readonly member: RoomMember;
  readonly pieceId: string;
  /** The session it came in with; ends with it. */
  readonly sessionHash: string;
  readonly limits: RealtimeLimits;
  readonly log: Log;
  readonly metrics: RoomMetrics;
}

/** Reasons to close that cast no doubt on what was received before. */
const harmless: ReadonlySet<CloseReason> = new Set(["tooFast", "tooSlow", "goingAway"]);

/** One socket of one person in one room, kept within its limits. */
export class Connection {
  member: RoomMember;
  readonly pieceId: string;
  readonly sessionHash: string;
  readonly #options: ConnectionOptions;
  readonly #messages: TokenBucket;
  readonly #bytes: TokenBucket;
  #isAlive = true;
  #sentAwayFor: CloseReason | null = null;

  constructor(options: ConnectionOptions) {
    const { limits, socket } = options;
    this.#options = options;
    this.member = options.member;
    this.pieceId = options.pieceId;
    this.sessionHash = options.sessionHash;
    this.#messages = new TokenBucket(limits.messagesPerSecond, limits.messageBurst);
    this.#bytes = new TokenBucket(limits.bytesPerSecond, limits.byteBurst);
    socket.binaryType = "nodebuffer";
    socket.on("pong", () => {
      this.#isAlive = true;
    });
    // ws closes the socket itself (1009 for a frame that is too large); without a listener it would throw.
    socket.on("error", (error) => this.note("socket-error", (error as { code?: string }).code ?? error.name));
  }

  get isOpen(): boolean {
    return this.#options.socket.readyState === this.#options.socket.OPEN;
  }

  /** Whether what was received is still to be taken: also when the person left, or was too fast, afterwards. */
  get isWelcome(): boolean {
    return this.#sentAwayFor === null || harmless.has(this.#sentAwayFor);
  }

  /** Frames within the limits go to `take`; text frames and floods end the connection. */
  onFrame(take: (frame: Uint8Array) => void): void {
    this.#options.socket.on("message", (data: RawData, isBinary: boolean) => {
      // Frames go on arriving until the other side has answered our close.
      if (this.#sentAwayFor !== null) return;
      this.#isAlive = true;
      if (!isBinary || !Buffer.isBuffer(data)) this.close("unreadableMessage");
      else if (!this.#messages.take(1) || !this.#bytes.take(data.byteLength)) this.close("tooFast");
      else take(data);
    });
  }

  onClose(tell: () => void): void {
    this.#options.socket.on("close", tell);
  }

  /** Sends a frame; a reader for whom too much is waiting is cut off, so that it never costs the others. */
  send(frame: Uint8Array): void {
    const { socket, limits } = this.#options;
    if (!this.isOpen) return;
    if (socket.bufferedAmount > limits.waitingBytes) {
      this.close("tooSlow");
      socket.terminate();
      return;
    }
    socket.send(frame);
  }

  close(reason: CloseReason): void {
    if (this.#sentAwayFor !== null) return;
    this.#sentAwayFor = reason;
    this.note("closed", reason);
    this.#options.metrics.closed(reason);
    this.#options.socket.close(closeCodes[reason], closeWords[reason]);
  }

  /** Ends a connection that gave no sign of life since the last beat, and asks the others for one. */
  beat(): void {
    if (!this.#isAlive) this.#options.socket.terminate();
    this.#isAlive = false;
    if (this.isOpen) this.#options.socket.ping();
  }

  note(what: string, detail: string): void {
    this.#options.log({ what, pieceId: this.pieceId, userId: this.member.userId, detail });
  }
}
