import { purgeDeletedPieces } from "@/lib/store/deletion/purge-deleted-pieces";

/** Pieces go for good some day after their thirty days: the hour does not matter. */
const roundMilliseconds = 60 * 60_000;

/** Pieces being purged for as long as this process serves. */
export interface RunningPurges {
  /** Lets the piece under way go, then stops. */
  stop(): Promise<void>;
}

/**
 * Looks at the start and every hour for pieces that were deleted more than thirty days ago and deletes them for good, with
 * one server of several at it at a time. A round that fails is noted and the next one tries again; it never ends the server.
 */
export function startPurges(log: (line: string) => void = console.log): RunningPurges {
  let underWay: Promise<void> = Promise.resolve();
  const round = async () => {
    try {
      const purged = await purgeDeletedPieces();
      if (purged > 0)
        log(`Deleted for good after thirty days: ${purged === 1 ? "a piece" : `${purged} pieces`}.`);
    } catch (error) {
      log(
        `Deleted pieces could not be purged; again in an hour. ${error instanceof Error ? error.message : error}`,
      );
    }
  };
  const begin = () => {
    underWay = underWay.then(round);
  };
  begin();
  const timer = setInterval(begin, roundMilliseconds);
  timer.unref();
  return {
    stop: async () => {
      clearInterval(timer);
      await underWay;
    },
  };
}
