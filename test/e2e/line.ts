import { once } from "node:events";
import http from "node:http";
import net from "node:net";

/**
 * The line of one person to the network, which can be cut: a proxy of their own, so that everything of their browser
 * is cut together, open websockets and the service worker's requests included.
 */
export class Line {
  readonly #sockets = new Set<net.Socket>();
  #isCut = false;

  private constructor(private readonly server: http.Server) {
    server.on("connection", (socket) => this.#accept(socket));
    server.on("request", (request, response) => this.#pass(request, response));
    server.on("connect", (request, socket: net.Socket, head: Buffer) => {
      const { hostname, port } = new URL(`http://${request.url}`);
      const far = net.connect(Number(port), hostname, () => {
        socket.write("HTTP/1.1 200 Connection established\r\n\r\n");
        far.write(head);
        far.pipe(socket).pipe(far);
      });
      join(far, socket);
    });
  }

  static async lay(): Promise<Line> {
    const server = http.createServer();
    server.listen(0, "127.0.0.1");
    await once(server, "listening");
    return new Line(server);
  }

  /** For a browser context. */
  get proxy(): { server: string } {
    return { server: `http://127.0.0.1:${(this.server.address() as net.AddressInfo).port}` };
  }

  cut(): void {
    this.#isCut = true;
    for (const socket of this.#sockets) socket.destroy();
  }

  mend(): void {
    this.#isCut = false;
  }

  async takeDown(): Promise<void> {
    this.cut();
    this.server.close();
    await once(this.server, "close");
  }

  #accept(socket: net.Socket): void {
    if (this.#isCut) return void socket.destroy();
    this.#sockets.add(socket);
    socket.once("close", () => this.#sockets.delete(socket));
    socket.on("error", () => socket.destroy());
  }

  #pass(request: http.IncomingMessage, response: http.ServerResponse): void {
    const { method, headers, url = "" } = request;
    const far = http.request(url, { method, headers }, (answer) => {
      response.writeHead(answer.statusCode ?? 502, answer.headers);
      answer.pipe(response);
    });
    far.once("error", () => response.destroy());
    response.once("close", () => far.destroy());
    request.pipe(far);
  }
}

function join(one: net.Socket, other: net.Socket): void {
  for (const [socket, twin] of [
    [one, other],
    [other, one],
  ] as const) {
    socket.on("error", () => socket.destroy());
    socket.once("close", () => twin.destroy());
  }
}
