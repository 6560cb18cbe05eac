import type { RoomMember } from "@/lib/room/room-member";
import { type PresenceState, type PresenceView, readPresence, writePresenceEntries } from "./presence-state";

/** Whoever stands behind a client id: one connection. */
export interface PresentPerson {
  readonly member: RoomMember;
}

/** A client id and what it shows. */
export interface Present extends PresenceState {
  readonly clientId: number;
}

interface Place<P> {
  readonly person: P;
  readonly view: PresenceView;
}

interface DistantPlace extends PresenceState {
  readonly heardAt: number;
}

/** What somebody said of themselves. */
export interface Told {
  readonly clientId: number;
  /** False for a repetition, which says only that they are still here. */
  readonly isNews: boolean;
}

/**
 * Who is in a room and where they look, on this node and on others. Who someone is comes from their session; a
 * client speaks only for itself, under one client id at a time. Whoever is here is believed before what other
 * nodes say: a page that moved here is still named by the node it left.
 */
export class Presence<P extends PresentPerson> {
  readonly #places = new Map<number, Place<P>>();
  readonly #clientIds = new Map<P, number>();
  /** By the node that said so. */
  readonly #elsewhere = new Map<string, Map<number, DistantPlace>>();
  #lastClock = 0;

  /**
   * Takes an awareness update from one person.
   *
   * @returns null when it says nothing about the person themselves (a client repeats what it hears of others);
   * "unreadable" when it is not an awareness update.
   */
  receive(person: P, update: Uint8Array): Told | null | "unreadable" {
    const entries = readPresence(update);
    if (entries === null) return "unreadable";
    const entry = entries.find(({ clientId }) => this.#speaksFor(person, clientId));
    if (!entry) return null;
    const { clientId, view } = entry;
    if (view === null) return this.leave(person) === null ? null : { clientId, isNews: true };
    const before = this.#places.get(clientId);
    this.#places.set(clientId, { person, view });
    this.#clientIds.set(person, clientId);
    const isNews = before?.person !== person || !isSameView(before.view, view);
    return { clientId, isNews };
  }

  /** Takes a person away; the client id that was theirs, or null when they were not seen. */
  leave(person: P): number | null {
    const clientId = this.clientOf(person);
    this.#clientIds.delete(person);
    if (clientId === null || this.#places.get(clientId)?.person !== person) return null;
    this.#places.delete(clientId);
    return clientId;
  }

  /** Notes what another node said of somebody there. @param at in milliseconds. */
  hear(node: string, { clientId, member, view }: Present, at: number): void {
    const places = this.#elsewhere.get(node) ?? new Map<number, DistantPlace>();
    this.#elsewhere.set(node, places.set(clientId, { member, view, heardAt: at }));
  }

  /** Another node said that somebody there is gone. */
  forget(node: string, clientId: number): void {
    this.#elsewhere.get(node)?.delete(clientId);
  }

  /** Takes away what was last heard before `time`; from one node or from all. @returns the client ids. */
  forgetBefore(time: number, node?: string): number[] {
    return [...this.#elsewhere].flatMap(([name, places]) => {
      if (node !== undefined && node !== name) return [];
      const gone = [...places].filter(([, { heardAt }]) => heardAt < time).map(([clientId]) => clientId);
      for (const clientId of gone) places.delete(clientId);
      if (places.size === 0) this.#elsewhere.delete(name);
      return gone;
    });
  }

  /** Everybody on this node. */
  here(): Present[] {
    return [...this.#places].map(([clientId, { person, view }]) => ({
      clientId,
      member: person.member,
      view,
    }));
  }

  /** What a client id on this node shows; null when it is none. */
  placeHere(clientId: number): PresenceState | null {
    const place = this.#places.get(clientId);
    return place ? { member: place.person.member, view: place.view } : null;
  }

  /** The awareness update that says how these clients are now, on whatever node; gone is one who is on none. */
  write(clientIds: Iterable<number>): Uint8Array {
    return writePresenceEntries(
      [...clientIds].map((clientId) => ({
        clientId,
        clock: this.#nextClock(),
        state: this.#stateOf(clientId),
      })),
    );
  }

  /** Everybody but `person`; null when nobody else is here. */
  othersThan(person: P): Uint8Array | null {
    const ids = new Set(this.#places.keys());
    for (const places of this.#elsewhere.values()) for (const clientId of places.keys()) ids.add(clientId);
    const own = this.clientOf(person);
    if (own !== null) ids.delete(own);
    return ids.size === 0 ? null : this.write(ids);
  }

  /** Whose page a client id is; null when nobody uses it. */
  ownerOf(clientId: number): string | null {
    return this.#stateOf(clientId)?.member.userId ?? null;
  }

  /** The client id that a person on this node speaks for. */
  clientOf(person: P): number | null {
    return this.#clientIds.get(person) ?? null;
  }

  /** A connection keeps its first client id. That id may be new, or left over from the same person. */
  #speaksFor(person: P, clientId: number): boolean {
    const own = this.clientOf(person);
    if (own !== null) return clientId === own;
    const owner = this.ownerOf(clientId);
    return owner === null || owner === person.member.userId;
  }

  #stateOf(clientId: number): PresenceState | null {
    return this.placeHere(clientId) ?? this.#lastHeard(clientId);
  }

  #lastHeard(clientId: number): PresenceState | null {
    let last: DistantPlace | null = null;
    for (const places of this.#elsewhere.values()) {
      const place = places.get(clientId);
      if (place && (last === null || place.heardAt > last.heardAt)) last = place;
    }
    return last && { member: last.member, view: last.view };
  }

  /** Clients pass over a clock that is not higher than the last: it must rise over restarts and nodes too. */
  #nextClock(): number {
    this.#lastClock = Math.max(this.#lastClock + 1, Date.now());
    return this.#lastClock;
  }
}

function isSameView(one: PresenceView, other: PresenceView): boolean {
  return one.barIndex === other.barIndex && one.editing === other.editing;
}

/** An awareness update about nobody: a sign of life, since y-websocket counts messages and not pings. */
export const emptyPresence: Uint8Array = writePresenceEntries([]);
