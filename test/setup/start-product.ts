import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import net from "node:net";
import path from "node:path";
import { createInterface } from "node:readline";
import { bundleFolder, cacheFolder, root } from "@/app/_commands/folders.mjs";

export interface ProductOptions {
  readonly databaseUrl: string;
  /** Given when a product that was stopped is to come back under its address. */
  readonly port?: number;
  readonly environment?: Readonly<Record<string, string>>;
}

export interface RunningProduct {
  readonly url: string;
  readonly port: number;
  /** Everything it has printed so far. */
  output(): string;
  /** Ends it as a crash or an operator would; resolves when it is gone. */
  kill(signal: NodeJS.Signals): Promise<void>;
  stop(): Promise<void>;
}

/**
 * Starts the built server as a process of its own.
 *
 * @throws Error with its output if it ends before it is ready.
 */
export async function startProduct(options: ProductOptions): Promise<RunningProduct> {
  return startProgram("serve.mjs", options);
}

/** Starts a process that serves rooms and no pages. @throws as `startProduct`. */
export async function startRoomsApart(options: ProductOptions): Promise<RunningProduct> {
  return startProgram("realtime.mjs", options);
}

async function startProgram(program: string, options: ProductOptions): Promise<RunningProduct> {
  const port = options.port ?? (await findFreePort());
  const url = `http://localhost:${port}`;
  const server = spawn(process.execPath, [path.join(bundleFolder, program)], {
    cwd: root,
    stdio: ["ignore", "pipe", "pipe"],
    env: { ...process.env, ...environmentOf(port, url, options.databaseUrl), ...options.environment },
  });
  const lines: string[] = [];
  await waitUntilReady(server, lines);
  const kill = async (signal: NodeJS.Signals) => {
    if (server.exitCode !== null || server.signalCode !== null) return;
    server.kill(signal);
    await once(server, "exit");
  };
  return { url, port, output: () => lines.join("\n"), kill, stop: () => kill("SIGTERM") };
}

function environmentOf(port: number, url: string, databaseUrl: string): Record<string, string> {
  return {
    NODE_ENV: "production",
    HOST: "127.0.0.1",
    PORT: String(port),
    NEXTAUTH_URL: url,
    NEXTAUTH_SECRET: "a secret of the tests, of no use elsewhere",
    DATABASE_URL: databaseUrl,
    // Not among the messages of a product that is used here.
    COLLA_OUTBOX: path.join(cacheFolder, "test-outbox"),
  };
}

function waitUntilReady(server: ChildProcess, lines: string[]): Promise<void> {
  return new Promise((resolve, reject) => {
    for (const stream of [server.stdout, server.stderr])
      if (stream)
        createInterface({ input: stream }).on("line", (line) => {
          lines.push(line);
          if (/^(Colla Parte is|The rooms of Colla Parte are) ready/.test(line)) resolve();
        });
    server.once("error", reject);
    server.once("exit", (code) =>
      reject(new Error(`the product ended (${code}) before it was ready:\n${lines.join("\n")}`)),
    );
  });
}

/** A port that is free at this moment, on the address the product listens on. */
export async function findFreePort(): Promise<number> {
  const probe = net.createServer().listen(0, "127.0.0.1");
  await once(probe, "listening");
  const { port } = probe.address() as net.AddressInfo;
  probe.close();
  await once(probe, "close");
  return port;
}
