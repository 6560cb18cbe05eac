import type { IncomingMessage } from "node:http";
import type { Duplex } from "node:stream";
import { type WebSocket, WebSocketServer } from "ws";
import type { Admission } from "./authenticate";
import { Bus, type BusOptions } from "./bus";
import type { BusMessage } from "./bus-message";
import { callerAddress } from "./caller-address";
import { Connection } from "./connection";
import { admit, type DoorProblem, isFault, turnAway } from "./door";
import { FailedKnocks } from "./failed-knocks";
import { GroupAppend } from "./group-append";
import { inTurns } from "./in-turns";
import { type Log, nameFailure } from "./log-line";
import { PersonSockets } from "./person-sockets";
import { emptyPresence } from "./presence";
import { writePieceChanged, writePresence } from "./protocol";
import type { RealtimeLimits } from "./realtime-limits";
import { recheck } from "./recheck";
import type { Room } from "./room";
import type { RoomMetrics } from "./room-metrics";
import { RoomRegistry } from "./room-registry";
import { takeFrame } from "./take-frame";
import { VisitNotes } from "./visit-notes";

export interface NodeOptions {
  /** Tells this process from the others that share the database. */
  readonly name: string;
  readonly path: string;
  readonly databaseUrl: string;
  readonly publicUrl: URL;
  /** Whether a proxy of ours stands in front, so that the address it reports is the visitor's. */
  readonly trustsProxy: boolean;
  readonly limits: RealtimeLimits;
  readonly log: Log;
  readonly metrics: RoomMetrics;
  /** Opens the node's ear; a test may open one that is hard of hearing. */
  readonly openBus?: (options: BusOptions) => Bus;
}

const signOfLife = writePresence(emptyPresence);

/** How long sockets may take to say goodbye before they are cut off. */
const farewellMs = 1_000;

/** One process that serves rooms: its sockets, its open rooms, and its ear for the other processes. */
export class RealtimeNode {
  readonly #sockets: WebSocketServer;
  readonly #connections = new Set<Connection>();
  readonly #people = new PersonSockets();
  readonly #failedKnocks: FailedKnocks;
  readonly #visits: VisitNotes;
  readonly #registry: RoomRegistry;
  readonly #bus: Bus;
  readonly #timers: NodeJS.Timeout[];
  /** Rises whenever somebody may have lost the right to be here. */
  #revocations = 0;
  #isChecking = false;
  #isCheckDue = false;
  #isClosed = false;

  constructor(private readonly options: NodeOptions) {
    const { name, limits, log, metrics, databaseUrl, openBus = (wanted) => new Bus(wanted) } = options;
    this.#sockets = new WebSocketServer({
      noServer: true,
      maxPayload: limits.frameBytes,
      perMessageDeflate: false,
      clientTracking: true,
    });
    this.#failedKnocks = new FailedKnocks({
      perSecond: limits.failedKnocksPerSecond,
      burst: limits.failedKnockBurst,
    });
    this.#visits = new VisitNotes(log);
    const bus = openBus({
      name,
      databaseUrl,
      log,
      onMessage: (message) => this.#hear(message),
      onReturn: () => this.#hearEverything(),
    });
    const journal = new GroupAppend((entries) => bus.announce(entries));
    this.#registry = new RoomRegistry({
      journal,
      idleRoomMs: limits.idleRoomMs,
      log,
      metrics,
      tellOthers: (news) => bus.tellPeople(news),
    });
    this.#bus = bus;
    metrics.watch(() => ({ sockets: this.#connections.size, rooms: this.#registry.all().length }));
    this.#timers = [
      setInterval(() => this.#beat(), limits.heartbeatMs),
      setInterval(() => void this.#check(), limits.recheckMs),
      setInterval(() => this.#tellPeopleAgain(), limits.peopleRepeatMs),
    ];
  }

  whenListening(): Promise<void> {
    return this.#bus.whenListening();
  }

  /** Answers one upgrade request for a room. */
  async receive(request: IncomingMessage, socket: Duplex, head: Buffer): Promise<void> {
    // Whoever hangs up at the door is not an error.
    socket.on("error", () => socket.destroy());
    const revocations = this.#revocations;
    const address = callerAddress(request, this.options.trustsProxy);
    if (this.#isClosed) return this.#turnAway(socket, "unavailable");
    if (this.#failedKnocks.isTooMany(address)) return this.#turnAway(socket, "too-many-tries");
    const { path, publicUrl, limits, log } = this.options;
    const admission = await admit(request, { path, publicUrl, admissionMs: limits.admissionMs, log });
    if (!admission.ok) {
      const { kind } = admission.problem;
      if (isFault(kind)) this.#failedKnocks.note(address);
      return this.#turnAway(socket, kind);
    }
    const { member, pieceId } = admission.value;
    const excess = this.#isClosed ? "unavailable" : this.#people.findExcess(member.userId, pieceId, limits);
    if (excess) return this.#turnAway(socket, excess);
    this.#sockets.handleUpgrade(request, socket, head, (webSocket) => {
      const connection = this.#connect(webSocket, admission.value);
      // What ended while the door was being opened was not seen there.
      if (revocations !== this.#revocations) void this.#recheck([connection]);
    });
  }

  async close(): Promise<void> {
    this.#isClosed = true;
    for (const timer of this.#timers) clearInterval(timer);
    await this.#sayGoodbye();
    await this.#registry.close();
    await this.#visits.whenWritten();
    await this.#bus.close();
  }

  #turnAway(socket: Duplex, problem: DoorProblem): void {
    const { log, metrics } = this.options;
    // A flood of them would fill the log.
    if (problem !== "too-many-tries") log({ what: "turned-away", detail: problem });
    metrics.turnedAway(problem);
    turnAway(socket, problem);
  }

  #connect(socket: WebSocket, { member, pieceId, sessionHash, knownEpoch }: Admission): Connection {
    const { limits, log, metrics } = this.options;
    const connection = new Connection({ socket, member, pieceId, sessionHash, limits, log, metrics });
    this.#connections.add(connection);
    this.#people.add(connection);
    const entered = this.#enter(connection, knownEpoch);
    connection.onFrame((frame) => {
      // Frames that come before the room is loaded wait for it, in order.
      void entered.then((room) => {
        if (room && connection.isWelcome) takeFrame(room, connection, frame, limits);
      });
    });
    connection.onClose(() => {
      this.#connections.delete(connection);
      this.#people.delete(connection);
      void entered.then((room) => this.#leave(connection, room));
    });
    return connection;
  }

  /** Opens the room and lets the connection in; null, and closed with a reason, when that cannot be. */
  async #enter(connection: Connection, knownEpoch: number | null): Promise<Room | null> {
    const room = await this.#open(connection);
    if (room === null) return null;
    if (knownEpoch !== null && knownEpoch !== room.epoch) connection.close("otherEpoch");
    else if (room.connections.size >= this.options.limits.socketsPerRoom) connection.close("roomCrowded");
    else if (connection.isOpen) room.join(connection);
    return room;
  }

  async #open(connection: Connection): Promise<Room | null> {
    try {
      const room = await this.#registry.open(connection.pieceId);
      if (room === null) connection.close("notAMember");
      return room;
    } catch (error) {
      connection.note("room-not-loaded", nameFailure(error));
      connection.close("roomUnavailable");
      return null;
    }
  }

  #leave(connection: Connection, room: Room | null): void {
    if (room === null) return;
    const wasIn = room.connections.has(connection);
    room.leave(connection);
    if (wasIn) this.#noteVisit(connection, room);
    this.#registry.release(room);
  }

  /** With their last page here a person leaves, having seen the room as far as it goes. */
  #noteVisit({ member: { userId } }: Connection, { pieceId, connections, sequence }: Room): void {
    const isStillIn = [...connections].some(({ member }) => member.userId === userId);
    if (!isStillIn) this.#visits.note({ pieceId, userId, sequence });
  }

  #hear(message: BusMessage): void {
    switch (message.channel) {
      case "room_appended":
        // An entry that this very node appended is in its room already, so its sequence tells.
        this.#hearEnd(message.pieceId, message.sequence);
        break;
      case "rooms_appended":
        for (const [pieceId, sequence] of message.entries) this.#hearEnd(pieceId, sequence);
        break;
      case "rooms_people":
        for (const news of message.news) this.#registry.find(news.piece)?.people.hear(message.node, news);
        break;
      case "piece_changed":
        this.#hearPieceChanged(message);
        break;
      case "session_ended":
        this.#revoke(
          this.#people.of(message.userId),
          ({ sessionHash }) => (message.tokenHash ?? sessionHash) === sessionHash,
        );
        break;
      case "room_started_anew":
        void this.#registry.startAnew(message.pieceId, message.epoch);
        break;
      case "member_removed":
        this.#revoke(this.#people.of(message.userId), ({ pieceId }) => pieceId === message.pieceId);
        break;
    }
  }

  #hearEnd(pieceId: string, sequence: number): void {
    const room = this.#registry.find(pieceId);
    if (room && sequence > room.sequence) room.catchUp();
  }

  #hearPieceChanged({ pieceId, what }: BusMessage & { channel: "piece_changed" }): void {
    this.#registry.find(pieceId)?.sendToAll(writePieceChanged(what));
    if (what === "members") this.#revoke(this.#connections, (connection) => connection.pieceId === pieceId);
  }

  #revoke(connections: Iterable<Connection>, isMeant: (connection: Connection) => boolean): void {
    this.#revocations += 1;
    void this.#recheck([...connections].filter(isMeant));
  }

  /** Listening again after a silence: whatever could have been said meanwhile is looked up. */
  #hearEverything(): void {
    this.#revocations += 1;
    void this.#check();
    for (const room of this.#registry.all()) {
      room.sendToAll(writePieceChanged("everything"));
      room.people.tellEverybody(true);
    }
  }

  async #recheck(connections: Iterable<Connection>): Promise<void> {
    try {
      for (const connection of await recheck(connections))
        this.#registry.find(connection.pieceId)?.welcomeAnew(connection);
    } catch (error) {
      // Asked again at the next check; until then the log itself refuses whoever may not write.
      this.options.log({ what: "not-rechecked", detail: nameFailure(error) });
    }
  }

  /** One check at a time; whoever asks during one may know of something that it has already passed over. */
  async #check(): Promise<void> {
    this.#isCheckDue = true;
    if (this.#isChecking) return;
    this.#isChecking = true;
    while (this.#isCheckDue) {
      this.#isCheckDue = false;
      await this.#checkOnce();
    }
    this.#isChecking = false;
  }

  async #checkOnce(): Promise<void> {
    try {
      await this.#registry.check();
      await this.#recheck(this.#connections);
    } catch (error) {
      this.options.log({ what: "not-checked", detail: nameFailure(error) });
    }
  }

  /** Other nodes believe only who goes on speaking, and so does this one. */
  #tellPeopleAgain(): void {
    const forgotten = performance.now() - this.options.limits.peopleExpireMs;
    for (const { people } of this.#registry.all()) {
      people.forgetBefore(forgotten);
      people.tellEverybody(false);
    }
  }

  #beat(): void {
    void inTurns(this.#connections, (connection) => {
      connection.beat();
      connection.send(signOfLife);
    });
    void this.#bus.probe();
  }

  async #sayGoodbye(): Promise<void> {
    const left = [...this.#connections].map(
      (connection) => new Promise<void>((resolve) => connection.onClose(resolve)),
    );
    for (const connection of this.#connections) connection.close("goingAway");
    const cutOff = setTimeout(() => {
      for (const socket of this.#sockets.clients) socket.terminate();
    }, farewellMs);
    await Promise.all(left);
    clearTimeout(cutOff);
  }
}
