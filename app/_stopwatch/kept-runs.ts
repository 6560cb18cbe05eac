import { browserStorage, type ItemKind, type ItemStorage, KeptItems } from "@/app/_offline/kept-items";
import { type Run, runSchema } from "./run";

/** The run begun last first. */
const runs: ItemKind<Run> = {
  name: "run",
  schema: runSchema,
  idOf: ({ runId }) => runId,
  compare: (a, b) => b.startedAt - a.startedAt,
};

export type KeptRuns = KeptItems<Run>;

/** Stopwatches of one person that the server does not have yet. */
export function keptRuns(userId: string, storage: ItemStorage = browserStorage()): KeptRuns {
  return new KeptItems(runs, userId, storage);
}
