import net from "node:net";

export interface ReceivedMail {
  readonly from: string;
  readonly to: readonly string[];
  /** As it was before the dots at line starts were doubled. */
  readonly bytes: Buffer;
}

/** The stage at which the server refuses, and with which reply (RFC 5321, 4.2). */
export interface Refusal {
  readonly at: "RCPT" | "DATA" | "end of data";
  readonly reply: string;
}

export interface SmallSmtpServer {
  readonly port: number;
  readonly received: ReceivedMail[];
  /** The verbs of all that was said to it. */
  readonly heard: string[];
  /** Set to refuse, null to take everything. */
  refusal: Refusal | null;
  close(): Promise<void>;
}

/** As much of a mail server (RFC 5321) as it takes to be handed a message: no TLS, no accounts. */
export async function startSmallSmtpServer(): Promise<SmallSmtpServer> {
  const sockets = new Set<net.Socket>();
  const server = net.createServer((socket) => {
    sockets.add(socket);
    socket.on("close", () => sockets.delete(socket)).on("error", () => {});
    converse(socket, small);
  });
  const small: SmallSmtpServer = {
    port: 0,
    received: [],
    heard: [],
    refusal: null,
    close: async () => {
      for (const socket of sockets) socket.destroy();
      await new Promise((resolve) => server.close(resolve));
    },
  };
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  return Object.assign(small, { port: (server.address() as net.AddressInfo).port });
}

function converse(socket: net.Socket, server: SmallSmtpServer): void {
  let waiting = "";
  let [from, to]: [string, string[]] = ["", []];
  let isInData = false;
  const say = (reply: string) => socket.write(`${reply}\r\n`);
  const refused = (at: Refusal["at"]) => {
    if (server.refusal?.at !== at) return false;
    say(server.refusal.reply);
    return true;
  };
  const obey = (line: string) => {
    const verb = line.slice(0, 4).toUpperCase();
    server.heard.push(verb);
    if (verb === "EHLO") say("250-small\r\n250 8BITMIME");
    else if (verb === "MAIL") {
      [from, to] = [addressIn(line), []];
      say("250 yes");
    } else if (verb === "RCPT") {
      if (refused("RCPT")) return;
      to.push(addressIn(line));
      say("250 yes");
    } else if (verb === "DATA") {
      if (refused("DATA")) return;
      isInData = true;
      say("354 go on");
    } else if (verb === "STAR") say("502 no such thing here");
    else if (verb === "QUIT") socket.end("221 bye\r\n");
    else say("250 yes");
  };
  const take = (data: string) => {
    isInData = false;
    if (refused("end of data")) return;
    server.received.push({ from, to, bytes: Buffer.from(data.replace(/^\./gm, ""), "latin1") });
    say("250 taken");
  };
  socket.on("data", (chunk) => {
    waiting += chunk.toString("latin1");
    for (;;) {
      const mark = isInData ? "\r\n.\r\n" : "\r\n";
      const end = waiting.indexOf(mark);
      if (end < 0) return;
      const said = waiting.slice(0, end);
      waiting = waiting.slice(end + mark.length);
      if (isInData) take(`${said}\r\n`);
      else obey(said);
    }
  });
  say("220 small");
}

function addressIn(line: string): string {
  return /<([^>]*)>/.exec(line)?.[1] ?? "";
}
