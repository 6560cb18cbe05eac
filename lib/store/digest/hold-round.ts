import { database } from "../database";

/** The advisory lock of the messages; any number, but only this place uses it. */
const lockNumber = 20_261_126;
/** No round takes as long: it sends a limited number of messages, each within a limited time. */
const longestMilliseconds = 15 * 60_000;

/**
 * Does `work` unless another server is at it. The lock is the transaction's, so it ends with it, also when this
 * process or its connection does. It saves double work; that nothing is sent twice does not hang on it.
 *
 * @returns null when another server is at it.
 */
export async function holdRound<T>(work: () => Promise<T>): Promise<T | null> {
  return database().$transaction(
    async (tx) => {
      const [row] = await tx.$queryRaw<{ held: boolean }[]>`
        SELECT pg_try_advisory_xact_lock(${lockNumber}) AS held`;
      return row?.held ? work() : null;
    },
    { timeout: longestMilliseconds },
  );
}
