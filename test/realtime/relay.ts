import { once } from "node:events";
import net from "node:net";

/** A line to Postgres that can be cut, and mended again. */
export interface Relay {
  /** The database's address over this line. */
  readonly url: string;
  /** Breaks what runs over it, and takes nothing new. */
  cut(): void;
  mend(): void;
  close(): Promise<void>;
}

export async function openRelay(databaseUrl: string): Promise<Relay> {
  const target = new URL(databaseUrl);
  const lines = new Set<net.Socket>();
  let isCut = false;
  const server = net.createServer((near) => {
    if (isCut) {
      near.destroy();
      return;
    }
    const far = net.connect(Number(target.port), target.hostname);
    for (const [one, other] of [
      [near, far],
      [far, near],
    ] as const) {
      lines.add(one);
      one.pipe(other);
      one.on("error", () => other.destroy());
      one.on("close", () => {
        lines.delete(one);
        other.destroy();
      });
    }
  });
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  const url = new URL(databaseUrl);
  url.hostname = "127.0.0.1";
  url.port = String((server.address() as net.AddressInfo).port);
  const breakLines = () => {
    for (const line of lines) line.destroy();
  };
  return {
    url: url.href,
    cut: () => {
      isCut = true;
      breakLines();
    },
    mend: () => {
      isCut = false;
    },
    close: async () => {
      breakLines();
      server.close();
      await once(server, "close");
    },
  };
}
