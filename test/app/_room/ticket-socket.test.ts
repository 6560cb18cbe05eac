import http from "node:http";
import type { AddressInfo } from "node:net";
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from "vitest";
import { WebSocket as NodeSocket, WebSocketServer } from "ws";
import { WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import { askTicket, placeTicket, type TicketAnswer, ticketSocket } from "@/app/_room/ticket-socket";
import { closeCodes } from "@/realtime/close-codes";

let server: http.Server;
let sockets: WebSocketServer;
let address: string;
/** The addresses that sockets were asked for, and what is done with each. */
const asked: string[] = [];
let receive: (socket: NodeSocket) => void = () => {};

beforeAll(async () => {
  server = http.createServer();
  sockets = new WebSocketServer({ server });
  sockets.on("connection", (socket, request) => {
    asked.push(request.url ?? "");
    receive(socket);
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  address = `ws://127.0.0.1:${(server.address() as AddressInfo).port}/rooms`;
});

afterEach(() => {
  asked.length = 0;
  receive = () => {};
  vi.unstubAllGlobals();
});

afterAll(() => {
  sockets.close();
  server.close();
});

/** A provider that shows tickets one after the other. */
function connect(ask: () => Promise<TicketAnswer>): WebsocketProvider {
  return new WebsocketProvider("ws://nowhere.test/rooms", "piece-1", new Y.Doc(), {
    disableBc: true,
    params: { epoch: "3" },
    maxBackoffTime: 50,
    WebSocketPolyfill: ticketSocket(ask, NodeSocket as unknown as typeof WebSocket),
  });
}

const gives = () => {
  let count = 0;
  return async (): Promise<TicketAnswer> => {
    count += 1;
    return { ok: true, ticket: { ticket: `t${count}`, address } };
  };
};

describe("a socket with a ticket", () => {
  test("asks for one before each connection, and shows each once", async () => {
    const third = new Promise<void>((resolve) => {
      receive = (socket) => {
        if (asked.length === 3) resolve();
        else socket.close(1001);
      };
    });
    const provider = connect(gives());
    await third;
    provider.destroy();
    expect(asked).toEqual([1, 2, 3].map((turn) => `/rooms/piece-1?epoch=3&ticket=t${turn}`));
  });

  test("carries what is sent both ways", async () => {
    const first = new Promise<Buffer>((resolve) => {
      receive = (socket) => socket.once("message", (data: Buffer) => resolve(data));
    });
    const provider = connect(gives());
    // Sync step 1 of an empty document.
    expect([...(await first)]).toEqual([0, 0, 1, 0]);
    provider.destroy();
  });

  test.each(["signedOut", "notAMember"] as const)("ends for good when there is none: %s", async (reason) => {
    const provider = connect(async () => ({ ok: false, reason }));
    const code = await new Promise((resolve) => provider.on("closed", (event) => resolve(event.code)));
    expect(code).toBe(closeCodes[reason]);
    expect(provider.shouldConnect).toBe(false);
    provider.destroy();
  });

  test("comes back when the server could not be asked", async () => {
    const give = gives();
    let turn = 0;
    const arrived = new Promise<void>((resolve) => {
      receive = () => resolve();
    });
    const provider = connect(() => {
      turn += 1;
      return turn < 3 ? Promise.reject(new TypeError("no network")) : give();
    });
    await arrived;
    provider.destroy();
    expect(turn).toBe(3);
  });

  test("that is given up while it waits for its ticket never connects", async () => {
    let give: (answer: TicketAnswer) => void = () => {};
    const asking = new Promise<TicketAnswer>((resolve) => {
      give = resolve;
    });
    const provider = connect(() => asking);
    provider.destroy();
    give({ ok: true, ticket: { ticket: "late", address } });
    await asking;
    await new Promise((resolve) => server.getConnections(resolve));
    expect(asked).toEqual([]);
  });
});

describe("asking for a ticket", () => {
  const answers = (body: unknown, status: number) =>
    vi.stubGlobal("fetch", async () =>
      typeof body === "string" ? new Response(body, { status }) : Response.json(body, { status }),
    );

  test.each<[what: string, body: unknown, status: number, answer: TicketAnswer]>([
    [
      "given",
      { ticket: "abc", address: "wss://rooms.test/rooms" },
      201,
      { ok: true, ticket: { ticket: "abc", address: "wss://rooms.test/rooms" } },
    ],
    ["signed out", { kind: "signed-out", sentence: "…" }, 401, { ok: false, reason: "signedOut" }],
    ["no member", { kind: "not-found", sentence: "…" }, 404, { ok: false, reason: "notAMember" }],
    ["too many", { kind: "rate-limited", sentence: "…" }, 429, { ok: false, reason: "tooFast" }],
    ["a proxy without us", "<h1>Not found</h1>", 404, { ok: false, reason: "roomUnavailable" }],
    [
      "no address of rooms",
      { ticket: "abc", address: "javascript:1" },
      201,
      { ok: false, reason: "roomUnavailable" },
    ],
    ["an error of ours", "", 500, { ok: false, reason: "roomUnavailable" }],
  ])("%s", async (_what, body, status, answer) => {
    answers(body, status);
    expect(await askTicket("piece-1")).toEqual(answer);
  });
});

test("the ticket goes to where it is for, whatever stood in the address", () => {
  const ticket = { ticket: "a+b/c", address: "wss://rooms.test/deep/rooms/" };
  expect(placeTicket("ws://desk.test/rooms/piece-1?epoch=2&ticket=old", ticket)).toBe(
    "wss://rooms.test/deep/rooms/piece-1?epoch=2&ticket=a%2Bb%2Fc",
  );
});
