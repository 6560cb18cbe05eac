import { once } from "node:events";
import http from "node:http";
import { WebSocketServer } from "ws";
// @ts-expect-error It says nothing about its types.
import { setupWSConnection } from "y-websocket-in-memory/bin/utils";

/** The room server that y-websocket 2 brings along, with the same ear for questions as ours (room-servers.ts). */

const server = http.createServer();
new WebSocketServer({ server, perMessageDeflate: false }).on("connection", setupWSConnection);
server.listen(0, "127.0.0.1");
await once(server, "listening");

const { port } = /** @type {import("node:net").AddressInfo} */ (server.address());
process.send?.(`ws://127.0.0.1:${port}/rooms`);
process.on("message", () => {
  const { user, system } = process.cpuUsage();
  const { rss, heapUsed } = process.memoryUsage();
  process.send?.({
    processorMs: (user + system) / 1000,
    residentMegabytes: rss / 2 ** 20,
    heapMegabytes: heapUsed / 2 ** 20,
  });
});
process.once("SIGTERM", () => process.exit(0));
