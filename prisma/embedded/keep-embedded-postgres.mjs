import { setTimeout as wait } from "node:timers/promises";
import { StartFailure } from "../../app/_commands/start-failure.mjs";
import { isGone } from "./postmaster.mjs";
import { startEmbeddedPostgres } from "./start-embedded-postgres.mjs";

/**
 * A server that is brought back when it dies.
 *
 * @typedef {object} KeptPostgres
 * @property {string} url of the maintenance database; stays the same.
 * @property {string} base the folder that holds data, password and log.
 * @property {() => number} pid of the server that runs now, or ran last.
 * @property {() => Promise<void>} leave no longer brings it back, and lets it run.
 * @property {() => Promise<void>} stop no longer brings it back, and stops it.
 */

/** How often is looked after it. Reading one line of /proc each time costs nothing that could be measured. */
const lookMs = 100;

/** A server that died so often in so much time, or did not start so often in a row, is not helped by more tries. */
const mostStarts = 40;
const windowMs = 60_000;
const mostFailures = 5;
const pauseMs = 500;

/**
 * Starts PostgreSQL as `startEmbeddedPostgres` does, or attaches to it, and from then on starts it again on the
 * same port whenever it ends without having been asked to. Several processes may keep the same server: whoever
 * is first starts it, and the others find it running.
 *
 * @param {object} options
 * @param {string} options.folder
 * @param {boolean} [options.isDurable]
 * @param {(sentence: string) => void} options.tell hears when the server died, and when it is back.
 * @param {(error: unknown) => void} options.onGivenUp hears that it will not be tried again.
 * @returns {Promise<KeptPostgres>}
 * @throws {import("../../app/_commands/start-failure.mjs").StartFailure} as `startEmbeddedPostgres`, the first time.
 */
export async function keepEmbeddedPostgres({ folder, isDurable = true, tell, onGivenUp }) {
  let server = await startEmbeddedPostgres({ folder, isDurable });
  const { url, base, port } = server;
  const over = new AbortController();
  /** When it was started again of late. @type {number[]} */
  let starts = [];

  const startAgain = async () => {
    const now = Date.now();
    starts = [...starts.filter((at) => at > now - windowMs), now];
    if (starts.length > mostStarts) throw new StartFailure(sayTooOften());
    server = await startEmbeddedPostgres({ folder, isDurable, port });
    if (server.port !== port) throw new StartFailure(sayMoved(port, server.port));
    tell(`The embedded database serves again after ${Date.now() - now} ms.`);
  };

  const bringBack = async () => {
    tell("The embedded database ended by itself; starting it again.");
    for (let failures = 0; !over.signal.aborted; ) {
      try {
        return await startAgain();
      } catch (error) {
        failures += 1;
        if (failures === mostFailures) throw error;
        await pause(pauseMs, over.signal);
      }
    }
  };

  const watch = async () => {
    while (!over.signal.aborted) {
      if (isGone(server.pid)) await bringBack();
      else await pause(lookMs, over.signal);
    }
  };

  const watching = watch().catch((error) => {
    if (!over.signal.aborted) onGivenUp(error);
  });
  const leave = () => {
    over.abort();
    // A start that is under way comes to its end first: what it starts must be known to be stopped.
    return watching;
  };
  const stop = async () => {
    await leave();
    await server.stop();
  };
  return { url, base, pid: () => server.pid, leave, stop };
}

function sayTooOften() {
  return `The embedded database ended ${mostStarts} times within ${windowMs / 1000} seconds; it is not started again.`;
}

/**
 * @param {number} from
 * @param {number} to
 */
function sayMoved(from, to) {
  return `The embedded database was started by another program on port ${to} instead of ${from}; start again.`;
}

/**
 * Waits without keeping the process alive; shorter when it is over.
 *
 * @param {number} milliseconds
 * @param {AbortSignal} signal
 */
async function pause(milliseconds, signal) {
  await wait(milliseconds, undefined, { ref: false, signal }).catch(() => {});
}
