import { roomAsJson } from "@/lib/room/room-as-json";
import { ReturningClient } from "./returning-client";
import type { FurnishedRoom } from "./room-people";
import { Vouched } from "./vouched";

/** Whoever has so much unsaved waits with writing: a backlog without end would measure the machine. */
const mostUnsaved = 40;

/** People who stay in their rooms and go on writing, whatever happens to the server. */
export class FaultStay {
  readonly vouched = new Vouched();
  readonly clients: readonly ReturningClient[];
  #timer: NodeJS.Timeout | null = null;

  constructor(address: string, rooms: readonly FurnishedRoom[]) {
    // Each y-websocket client listens for the end of the process.
    process.setMaxListeners(1_000);
    this.clients = rooms.flatMap(({ pieceId, guests }) =>
      guests.map((guest) => new ReturningClient(address, pieceId, guest, this.vouched)),
    );
  }

  /** Lets the players write, so many times a second over all rooms, until `stopWriting`. */
  startWriting(updatesPerSecond: number): void {
    const players = this.clients.filter(({ isPlayer }) => isPlayer);
    const everyMs = 10;
    let due = 0;
    this.#timer = setInterval(() => {
      for (due += (updatesPerSecond * everyMs) / 1000; due >= 1; due -= 1) {
        const player = players[Math.floor(Math.random() * players.length)];
        if (player && player.unsaved < mostUnsaved) player.write();
      }
    }, everyMs);
  }

  stopWriting(): void {
    if (this.#timer) clearInterval(this.#timer);
  }

  /** How many breaths were written and not acknowledged. */
  unsaved(): number {
    return this.clients.reduce((sum, client) => sum + client.unsaved, 0);
  }

  /** Clients whose room is not the log's, once everything is acknowledged. To be asked after `vouched.findLost`. */
  countDiverged(): number {
    return this.clients.filter(
      ({ doc, pieceId }) => roomAsJson(doc) !== roomAsJson(this.vouched.logOf(pieceId)),
    ).length;
  }

  close(): void {
    this.stopWriting();
    for (const client of this.clients) client.close();
  }
}

/** Looks again and again until it is so. @throws Error after `longestMs`. */
export async function until(what: string, isSo: () => boolean, longestMs = 120_000): Promise<void> {
  for (const end = performance.now() + longestMs; !isSo(); ) {
    if (performance.now() > end) throw new Error(`not within ${longestMs} ms: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}
