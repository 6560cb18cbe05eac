import { type ChildProcess, fork } from "node:child_process";
import { once } from "node:events";
import { z } from "zod";
import { type SnapshotStep, snapshotSteps, takeRoomSnapshot } from "@/lib/store/room/room-snapshot";
import type { KilledTaker } from "./snapshot-races";

/** The variable of the environment that makes a program take one snapshot and kill itself in it. */
const variable = "COLLA_BENCH_TAKER";

const orderSchema = z.object({ pieceId: z.string(), step: z.enum(snapshotSteps) });

/** Starts processes that wait for a room, a few ahead, so that no race waits for a process to start. */
export class KilledTakers {
  readonly #waiting: ChildProcess[];

  /** @param program one that calls `takeAndDieIfAsked`. */
  constructor(
    private readonly program: string,
    ahead = 2,
  ) {
    this.#waiting = Array.from({ length: ahead }, () => this.#start());
  }

  readonly take: KilledTaker = async (pieceId: string, step: SnapshotStep) => {
    const child = this.#waiting.shift() ?? this.#start();
    this.#waiting.push(this.#start());
    const ended = once(child, "exit");
    child.send({ pieceId, step });
    const [, signal] = await ended;
    return signal === "SIGKILL";
  };

  close(): void {
    for (const child of this.#waiting) child.kill("SIGKILL");
  }

  #start(): ChildProcess {
    return fork(this.program, { env: { ...process.env, [variable]: "1" } });
  }
}

/** Takes the snapshot that it is told to take, when this process was forked for it. @returns whether it was. */
export function takeAndDieIfAsked(): boolean {
  if (process.env[variable] === undefined || !process.send) return false;
  // Whoever started it may be killed too.
  process.once("disconnect", () => process.exit(0));
  process.once("message", (message) => void takeAndDie(orderSchema.parse(message)));
  return true;
}

async function takeAndDie({ pieceId, step }: z.infer<typeof orderSchema>): Promise<void> {
  await takeRoomSnapshot(pieceId, {
    onStep: (done) => {
      if (done === step) process.kill(process.pid, "SIGKILL");
    },
  });
  // Another had the room: there was no step to be killed at.
  process.exit(0);
}
