import type { Connection } from "./connection";
import { Gather } from "./gather";
import type { PeopleNews } from "./people-news";
import { Presence } from "./presence";
import { writePresence } from "./protocol";

/** Tells the other nodes something about the people of a room. */
export type TellOthers = (news: PeopleNews) => void;

export interface RoomPeopleOptions {
  readonly pieceId: string;
  /** Everybody in the room on this node. */
  readonly connections: ReadonlySet<Connection>;
  readonly tellOthers: TellOthers;
}

/** Where somebody looks is sent on at most this often; what comes between is passed over for what comes last. */
const spreadMs = 100;

/** Who is in one room, told to everybody in it here and to the nodes that have somebody in it too. */
export class RoomPeople {
  readonly #presence = new Presence<Connection>();
  readonly #options: RoomPeopleOptions;
  /** Client ids that changed, to be told here. */
  readonly #changed = new Gather<number>(spreadMs, (clientIds) => this.#spread(clientIds));
  /** Those of them that other nodes have not heard of. */
  readonly #news = new Set<number>();
  /** Nodes with somebody in this room, and when they last said so, by `performance.now()`. */
  readonly #neighbours = new Map<string, number>();

  constructor(options: RoomPeopleOptions) {
    this.#options = options;
  }

  join(connection: Connection): void {
    const { connections, pieceId, tellOthers } = this.#options;
    this.sendOthers(connection);
    if (connections.size === 1) tellOthers({ is: "open", piece: pieceId, asks: true });
  }

  leave(connection: Connection): void {
    const clientId = this.#presence.leave(connection);
    if (clientId !== null) this.#change(clientId, true);
    if (this.#options.connections.size === 0) this.#empty();
  }

  /** @returns false when it is not an awareness update. */
  take(connection: Connection, update: Uint8Array): boolean {
    const told = this.#presence.receive(connection, update);
    if (told === "unreadable") return false;
    // A repetition goes to everybody here as well: a client forgets whom it does not hear of.
    if (told) this.#change(told.clientId, told.isNews);
    return true;
  }

  /** Somebody goes on under another name or role. */
  rename(connection: Connection): void {
    const clientId = this.#presence.clientOf(connection);
    if (clientId !== null) this.#change(clientId, true);
  }

  sendOthers(connection: Connection): void {
    const others = this.#presence.othersThan(connection);
    if (others) connection.send(writePresence(others));
  }

  /** Whose page a client id is, here or elsewhere; null when nobody uses it. */
  ownerOf(clientId: number): string | null {
    return this.#presence.ownerOf(clientId);
  }

  /** Another node speaks of this room. */
  hear(node: string, news: PeopleNews): void {
    if (this.#options.connections.size === 0) return;
    const at = performance.now();
    // Whoever was not known to be there has not been told of what happened here until now.
    const isNew = news.is !== "left" && !this.#neighbours.has(node);
    if (news.is === "left") this.#lose(node);
    else this.#neighbours.set(node, at);
    if (isNew || (news.is === "open" && news.asks)) this.tellEverybody(false);
    if (news.is === "here") this.#presence.hear(node, { ...news, clientId: news.client }, at);
    if (news.is === "gone") this.#presence.forget(node, news.client);
    if ("client" in news) this.#change(news.client, false);
  }

  /** Tells other nodes of everybody here, whether they have heard of them or not. */
  tellEverybody(asks: boolean): void {
    const { connections, pieceId: piece, tellOthers } = this.#options;
    if (connections.size === 0) return;
    tellOthers({ is: "open", piece, asks });
    for (const { clientId: client, member, view } of this.#presence.here())
      tellOthers({ is: "here", piece, client, member, view });
  }

  /** Takes away the people of nodes that said nothing of them since `time`, by `performance.now()`. */
  forgetBefore(time: number): void {
    for (const [node, heardAt] of this.#neighbours) if (heardAt < time) this.#neighbours.delete(node);
    for (const clientId of this.#presence.forgetBefore(time)) this.#change(clientId, false);
  }

  close(): void {
    this.#changed.clear();
  }

  #lose(node: string): void {
    this.#neighbours.delete(node);
    for (const clientId of this.#presence.forgetBefore(Number.POSITIVE_INFINITY, node))
      this.#change(clientId, false);
  }

  #change(clientId: number, isNews: boolean): void {
    if (isNews) this.#news.add(clientId);
    this.#changed.add(clientId);
  }

  /** Nobody is left to tell; whoever comes next asks the other nodes again. */
  #empty(): void {
    const { pieceId, tellOthers } = this.#options;
    if (this.#neighbours.size > 0) tellOthers({ is: "left", piece: pieceId });
    this.#neighbours.clear();
    this.#news.clear();
    this.#changed.clear();
    this.#presence.forgetBefore(Number.POSITIVE_INFINITY);
  }

  #spread(clientIds: ReadonlySet<number>): void {
    const toAll = writePresence(this.#presence.write(clientIds));
    for (const connection of this.#options.connections) {
      const own = this.#presence.clientOf(connection);
      // A client that hears of itself would take it for its own doing.
      if (own === null || !clientIds.has(own)) connection.send(toAll);
      else if (clientIds.size > 1) {
        const others = [...clientIds].filter((clientId) => clientId !== own);
        connection.send(writePresence(this.#presence.write(others)));
      }
    }
    this.#tellNews();
  }

  #tellNews(): void {
    const { pieceId: piece, tellOthers } = this.#options;
    if (this.#neighbours.size > 0) {
      for (const client of this.#news) {
        const place = this.#presence.placeHere(client);
        tellOthers(place ? { is: "here", piece, client, ...place } : { is: "gone", piece, client });
      }
    }
    this.#news.clear();
  }
}
