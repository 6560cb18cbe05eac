import { type ChildProcess, fork } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";

/** One moment of the engraver's timemap: performed quarters as a fraction, milliseconds, and what begins and ends. */
export interface TimemapEvent {
  readonly qfrac: readonly [number, number];
  readonly tstamp: number;
  readonly tempo?: number;
  readonly measureOn?: string;
  readonly on?: readonly string[];
  readonly off?: readonly string[];
  readonly restsOn?: readonly string[];
  readonly restsOff?: readonly string[];
}

const childFile = fileURLToPath(new URL("./timemap-child.mjs", import.meta.url));
const cache = fileURLToPath(new URL("../../.cache/timemaps", import.meta.url));
const packageFile = fileURLToPath(new URL("../../node_modules/verovio/package.json", import.meta.url));
const version: string = JSON.parse(readFileSync(packageFile, "utf8")).version;

/** A fresh process after this many sources: the engraver keeps what it took. */
const sourcesPerProcess = 24;

type Answer = { isReady: true } | { timemap: TimemapEvent[] } | { failure: string };

/**
 * Asks the engraving library for its own account of a piece's time. Answers are kept in `.cache` by the hash of the
 * source and the library's version.
 */
export class Engraver {
  private child: ChildProcess | null = null;
  private taken = 0;

  async timemap(musicXml: string): Promise<TimemapEvent[]> {
    const hash = createHash("sha256").update(version).update(musicXml).digest("hex");
    const file = path.join(cache, `${hash}.json`);
    if (existsSync(file)) return JSON.parse(readFileSync(file, "utf8"));
    const timemap = await this.ask(musicXml);
    mkdirSync(cache, { recursive: true });
    writeFileSync(file, JSON.stringify(timemap));
    return timemap;
  }

  private async ask(musicXml: string): Promise<TimemapEvent[]> {
    if (this.taken >= sourcesPerProcess) this.close();
    const child = this.child ?? (await this.start());
    this.taken += 1;
    child.send({ musicXml });
    const answer = await nextAnswer(child);
    if (!("timemap" in answer))
      throw new Error(`The engraver did not take the source: ${JSON.stringify(answer)}`);
    return answer.timemap;
  }

  private async start(): Promise<ChildProcess> {
    const child = fork(childFile, { stdio: ["ignore", "ignore", "ignore", "ipc"] });
    this.child = child;
    this.taken = 0;
    await nextAnswer(child);
    return child;
  }

  close(): void {
    this.child?.kill();
    this.child = null;
    this.taken = 0;
  }
}

function nextAnswer(child: ChildProcess): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const answered = (message: unknown) => {
      child.off("exit", ended);
      resolve(message as Answer);
    };
    const ended = (code: number | null) => reject(new Error(`The engraver ended with code ${code}`));
    child.once("message", answered);
    child.once("exit", ended);
  });
}
