import { StartFailure } from "./start-failure.mjs";

/**
 * @typedef {object} Settings
 * @property {number} port
 * @property {string} host the address to listen on.
 * @property {string} publicUrl the one address people use, without a slash at the end.
 * @property {string | null} databaseUrl null: the embedded database.
 * @property {boolean} hasDemo whether the demo is wanted.
 */

/**
 * The settings that the environment gives, checked before anything else happens.
 *
 * @param {Record<string, string | undefined>} environment
 * @returns {Settings}
 * @throws {StartFailure} with one sentence.
 */
export function readSettings(environment) {
  const port = readPort(environment.PORT || "3000");
  const databaseUrl = environment.DATABASE_URL || null;
  if (databaseUrl) checkUrl("DATABASE_URL", databaseUrl, ["postgres:", "postgresql:"]);
  const publicUrl = environment.NEXTAUTH_URL || `http://localhost:${port}`;
  checkUrl("NEXTAUTH_URL", publicUrl, ["http:", "https:"]);
  checkRooms(environment);
  return {
    port,
    host: environment.HOST || "127.0.0.1",
    publicUrl: publicUrl.replace(/\/+$/, ""),
    databaseUrl,
    hasDemo: environment.COLLA_DEMO ? environment.COLLA_DEMO === "1" : databaseUrl === null,
  };
}

/**
 * The settings of a process that serves rooms and no pages: it shares a database and an address with others.
 *
 * @param {Record<string, string | undefined>} environment
 * @returns {{ port: number, host: string, publicUrl: string, databaseUrl: string }}
 * @throws {StartFailure} with one sentence.
 */
export function readRoomsSettings(environment) {
  if (!environment.DATABASE_URL || !environment.NEXTAUTH_URL)
    throw new StartFailure(
      "Rooms served apart need DATABASE_URL, the database that they share with the pages, and NEXTAUTH_URL, the address under which the pages are opened.",
    );
  const { host, port, publicUrl } = readSettings({ ...environment, PORT: environment.PORT || "3001" });
  return { host, port, publicUrl, databaseUrl: environment.DATABASE_URL };
}

/** @param {Record<string, string | undefined>} environment */
function checkRooms({ COLLA_ROOMS, COLLA_ROOMS_URL }) {
  if (COLLA_ROOMS && COLLA_ROOMS !== "here" && COLLA_ROOMS !== "apart")
    throw new StartFailure(
      `COLLA_ROOMS is "${COLLA_ROOMS}", but rooms are served "here", with the pages, or "apart".`,
    );
  if (COLLA_ROOMS_URL) checkUrl("COLLA_ROOMS_URL", COLLA_ROOMS_URL, ["ws:", "wss:"]);
}

/** @param {string} text */
function readPort(text) {
  const port = Number(text);
  if (!Number.isInteger(port) || port < 1 || port > 65535)
    throw new StartFailure(`PORT is "${text}", but a port is a whole number from 1 to 65535.`);
  return port;
}

/**
 * @param {string} name
 * @param {string} value
 * @param {string[]} protocols
 */
function checkUrl(name, value, protocols) {
  const isRight = URL.canParse(value) && protocols.includes(new URL(value).protocol);
  // The value itself is not repeated: it may hold a password.
  if (!isRight)
    throw new StartFailure(`${name} is not an address that begins with ${protocols.join("// or ")}//.`);
}
