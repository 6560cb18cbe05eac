import type { Connection } from "./connection";
import type { RealtimeLimits } from "./realtime-limits";

/** The sockets on this node, by the person who opened them. */
export class PersonSockets {
  readonly #sockets = new Map<string, Set<Connection>>();

  add(connection: Connection): void {
    const { userId } = connection.member;
    const sockets = this.#sockets.get(userId) ?? new Set();
    this.#sockets.set(userId, sockets.add(connection));
  }

  delete(connection: Connection): void {
    const { userId } = connection.member;
    const sockets = this.#sockets.get(userId);
    sockets?.delete(connection);
    if (sockets?.size === 0) this.#sockets.delete(userId);
  }

  /** Everything a person has open here. */
  of(userId: string): ReadonlySet<Connection> {
    return this.#sockets.get(userId) ?? new Set();
  }

  /** Why a person may not open one more room or socket; null when they may. */
  findExcess(
    userId: string,
    pieceId: string,
    limits: Pick<RealtimeLimits, "socketsPerPerson" | "roomsPerPerson">,
  ): "too-many-sockets" | "too-many-rooms" | null {
    const sockets = this.of(userId);
    if (sockets.size >= limits.socketsPerPerson) return "too-many-sockets";
    const rooms = new Set([...sockets].map((connection) => connection.pieceId)).add(pieceId);
    return rooms.size > limits.roomsPerPerson ? "too-many-rooms" : null;
  }
}
