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
  return {
    port,
    host: environment.HOST || "127.0.0.1",
    publicUrl: publicUrl.replace(/\/+$/, ""),
    databaseUrl,
    hasDemo: environment.COLLA_DEMO ? environment.COLLA_DEMO === "1" : databaseUrl === null,
  };
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
