import { stopStep } from "./run-step.mjs";
import { StartFailure } from "./start-failure.mjs";

/** What has been started and has to be stopped, last first. @type {(() => Promise<void>)[]} */
const started = [];
let isStopping = false;

/**
 * Starts something that goes on until a signal comes. A foreseeable failure says its sentence and ends the process.
 *
 * @param {() => Promise<void>} start
 * @returns {Promise<void>}
 */
export async function runUntilStopped(start) {
  for (const signal of /** @type {const} */ (["SIGINT", "SIGTERM"]))
    process.once(signal, () => stopAndExit(0));
  stopWithNpm();
  try {
    await start();
  } catch (error) {
    await giveUp(error);
  }
}

/** From now on `stop` belongs to stopping. @param {() => Promise<void>} stop */
export function onStop(stop) {
  started.push(stop);
}

/** Says why it cannot go on, and ends. @param {unknown} error */
export async function giveUp(error) {
  // A step that we ended ourselves has not failed.
  if (isStopping) return;
  console.error(error instanceof StartFailure ? error.message : error);
  await stopAndExit(1);
}

/**
 * npm runs us through a shell and passes a signal on to that shell only, which ends without telling us. So when
 * it was npm that started us, we end with the shell.
 */
function stopWithNpm() {
  if (!process.env.npm_lifecycle_script?.includes("start.mjs")) return;
  const shell = process.ppid;
  const watch = setInterval(() => {
    if (process.ppid === shell) return;
    clearInterval(watch);
    stopAndExit(0);
  }, 200);
  watch.unref();
}

/** Stops in the opposite order of starting: the server, then the database. @param {number} code */
async function stopAndExit(code) {
  if (isStopping) return;
  isStopping = true;
  stopStep();
  for (const stop of started.splice(0).reverse()) await stop();
  process.exit(code);
}
