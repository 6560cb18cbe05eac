import type { RoomMember } from "@/lib/room/room-member";
import { type PresenceView, readPresence, writePresenceEntries } from "./presence-state";

/** Whoever stands behind a client id: one connection. */
export interface PresentPerson {
  readonly member: RoomMember;
}

interface Place<P> {
  readonly person: P;
  readonly clock: number;
  readonly view: PresenceView;
}

/**
 * Who is in a room and where they look. Who someone is comes from their session; a client speaks only for
 * itself, under one client id at a time.
 */
export class Presence<P extends PresentPerson> {
  readonly #places = new Map<number, Place<P>>();
  #lastClock = 0;

  /**
   * Takes an awareness update from one person.
   *
   * @returns the awareness update to send to the others; null when it says nothing about the person
   * themselves (a client repeats what it hears of others); "unreadable" when it is not an awareness update.
   */
  receive(person: P, update: Uint8Array): Uint8Array | null | "unreadable" {
    const entries = readPresence(update);
    if (entries === null) return "unreadable";
    const entry = entries.find(({ clientId }) => this.#speaksFor(person, clientId));
    if (!entry) return null;
    if (entry.view === null) return this.leave(person);
    this.#places.set(entry.clientId, { person, clock: this.#nextClock(), view: entry.view });
    return this.#write([entry.clientId]);
  }

  /** Takes a person away; the awareness update to send to the others, or null when they were not seen. */
  leave(person: P): Uint8Array | null {
    const clientId = this.#clientOf(person);
    if (clientId === null) return null;
    this.#places.delete(clientId);
    return writePresenceEntries([{ clientId, clock: this.#nextClock(), state: null }]);
  }

  /** Everybody but `person`; null when nobody else is here. */
  othersThan(person: P): Uint8Array | null {
    const others = [...this.#places].filter(([, place]) => place.person !== person).map(([id]) => id);
    return others.length === 0 ? null : this.#write(others);
  }

  /** Whose page a client id is; null when nobody here uses it. */
  ownerOf(clientId: number): string | null {
    return this.#places.get(clientId)?.person.member.userId ?? null;
  }

  /** A connection keeps its first client id. That id may be new, or left over from the same person. */
  #speaksFor(person: P, clientId: number): boolean {
    const own = this.#clientOf(person);
    if (own !== null) return clientId === own;
    const place = this.#places.get(clientId);
    return place === undefined || place.person.member.userId === person.member.userId;
  }

  #clientOf(person: P): number | null {
    for (const [clientId, place] of this.#places) if (place.person === person) return clientId;
    return null;
  }

  /** Clients pass over a clock that is not higher than the last: it must rise over restarts and nodes too. */
  #nextClock(): number {
    this.#lastClock = Math.max(this.#lastClock + 1, Date.now());
    return this.#lastClock;
  }

  #write(clientIds: readonly number[]): Uint8Array {
    return writePresenceEntries(
      clientIds.flatMap((clientId) => {
        const place = this.#places.get(clientId);
        return place
          ? [{ clientId, clock: place.clock, state: { member: place.person.member, view: place.view } }]
          : [];
      }),
    );
  }
}

/** An awareness update about nobody: a sign of life, since y-websocket counts messages and not pings. */
export const emptyPresence: Uint8Array = writePresenceEntries([]);
