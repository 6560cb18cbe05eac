import net from "node:net";
import { StartFailure } from "./start-failure.mjs";

/**
 * Fails at once when nothing answers where DATABASE_URL points: the packages that speak to a database may not
 * be installed yet, and installing them first would waste a minute.
 *
 * @param {string} url
 * @returns {Promise<void>}
 * @throws {StartFailure}
 */
export async function checkDatabasePort(url) {
  const { hostname, port, searchParams } = new URL(url);
  // A socket file instead of an address is left to the real connection.
  if (!hostname || searchParams.has("host")) return;
  const code = await tryToConnect(hostname.replace(/^\[|\]$/g, ""), Number(port || 5432));
  if (code)
    throw new StartFailure(
      `The database at ${hostname}:${port || 5432} cannot be reached (${code}); check DATABASE_URL and that the server runs.`,
    );
}

/**
 * @param {string} host
 * @param {number} port
 * @returns {Promise<string | null>} null when something accepts the connection.
 */
function tryToConnect(host, port) {
  return new Promise((resolve) => {
    const socket = net.connect({ host, port, timeout: 10_000 });
    /** @param {string | null} result */
    const end = (result) => {
      socket.destroy();
      resolve(result);
    };
    socket.once("connect", () => end(null));
    socket.once("timeout", () => end("ETIMEDOUT"));
    socket.once("error", (/** @type {NodeJS.ErrnoException} */ error) => end(error.code ?? error.message));
  });
}
