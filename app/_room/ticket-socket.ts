import { z } from "zod";
import { type CloseReason, closeCodes, closeWords } from "@/realtime/close-codes";

const ticketSchema = z.object({ ticket: z.string().min(1), address: z.url({ protocol: /^wss?$/ }) });

/** What is shown at the door of rooms that lie elsewhere: good for one connection, for a short while. */
export type RoomTicket = z.infer<typeof ticketSchema>;

export type TicketAnswer =
  | { readonly ok: true; readonly ticket: RoomTicket }
  /** Why there is none: what the room itself would say in closing. */
  | { readonly ok: false; readonly reason: CloseReason };

/** How the server's problems are named in its answer. */
const reasons: Readonly<Record<string, CloseReason>> = {
  "signed-out": "signedOut",
  "not-found": "notAMember",
  "rate-limited": "tooFast",
};

const problemSchema = z.object({ kind: z.string() });

/** Asks the server for a ticket to a room. @throws TypeError when the server cannot be reached. */
export async function askTicket(pieceId: string): Promise<TicketAnswer> {
  const response = await fetch(`/api/pieces/${pieceId}/room-ticket`, { method: "POST" });
  const body: unknown = await response.json().catch(() => null);
  const ticket = ticketSchema.safeParse(body);
  if (response.ok && ticket.success) return { ok: true, ticket: ticket.data };
  // By the word and not by the status: whatever stands before our server may answer 404 while it is away.
  const problem = problemSchema.safeParse(body);
  return { ok: false, reason: (problem.success && reasons[problem.data.kind]) || "roomUnavailable" };
}

type Handler<E> = ((event: E) => void) | null;

/**
 * A WebSocket that fetches a ticket before it connects. y-websocket makes a socket for each attempt, whenever it
 * finds it right; this way each attempt has a ticket of its own, and its waiting between attempts stays as it is.
 *
 * @param ask gives a ticket; a failure counts as a connection that failed.
 */
export function ticketSocket(
  ask: () => Promise<TicketAnswer>,
  Socket: typeof WebSocket = WebSocket,
): typeof WebSocket {
  class TicketSocket {
    static readonly CONNECTING = 0;
    static readonly OPEN = 1;
    static readonly CLOSING = 2;
    static readonly CLOSED = 3;
    readonly CONNECTING = 0;
    readonly OPEN = 1;
    readonly CLOSING = 2;
    readonly CLOSED = 3;
    binaryType: BinaryType = "blob";
    onopen: Handler<Event> = null;
    onmessage: Handler<MessageEvent> = null;
    onerror: Handler<Event> = null;
    onclose: Handler<{ code: number; reason: string }> = null;
    #socket: WebSocket | null = null;
    #isClosed = false;

    constructor(readonly url: string) {
      void this.#connect();
    }

    get readyState(): number {
      if (this.#socket) return this.#socket.readyState;
      return this.#isClosed ? this.CLOSED : this.CONNECTING;
    }

    send(data: Uint8Array<ArrayBuffer>): void {
      this.#socket?.send(data);
    }

    close(): void {
      if (this.#socket) this.#socket.close();
      else this.#end(1006, "");
    }

    async #connect(): Promise<void> {
      const answer = await ask().catch(() => null);
      if (this.#isClosed) return;
      if (answer === null) this.#end(1006, "");
      else if (answer.ok) this.#open(answer.ticket);
      else this.#end(closeCodes[answer.reason], closeWords[answer.reason]);
    }

    #open(ticket: RoomTicket): void {
      const socket = new Socket(placeTicket(this.url, ticket));
      socket.binaryType = this.binaryType;
      socket.onopen = (event) => this.onopen?.(event);
      socket.onmessage = (event) => this.onmessage?.(event);
      socket.onerror = (event) => this.onerror?.(event);
      socket.onclose = (event) => this.onclose?.(event);
      this.#socket = socket;
    }

    #end(code: number, reason: string): void {
      if (this.#isClosed) return;
      this.#isClosed = true;
      this.onclose?.({ code, reason });
    }
  }
  return TicketSocket as unknown as typeof WebSocket;
}

/** The address that y-websocket made (`<rooms>/<pieceId>?epoch=`), at the place the ticket is for, with the ticket. */
export function placeTicket(url: string, { ticket, address }: RoomTicket): string {
  const asked = new URL(url);
  const room = asked.pathname.split("/").at(-1) ?? "";
  const placed = new URL(`${address.replace(/\/+$/, "")}/${room}`);
  placed.search = asked.search;
  placed.searchParams.set("ticket", ticket);
  return placed.href;
}
