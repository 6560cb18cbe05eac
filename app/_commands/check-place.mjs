import fs from "node:fs";
import net from "node:net";
import path from "node:path";
import { StartFailure } from "./start-failure.mjs";

/**
 * Fails when nobody could listen on this port, before the long steps are taken in vain.
 *
 * @param {string} host
 * @param {number} port
 * @returns {Promise<void>}
 * @throws {StartFailure}
 */
export async function checkPort(host, port) {
  // People type "localhost", which browsers may take for ::1 first: another program there would answer instead.
  const hosts = host === "127.0.0.1" ? [host, "::1"] : [host];
  for (const address of hosts) {
    const code = await tryToListen(address, port);
    const isMissing = address === "::1" && (code === "EADDRNOTAVAIL" || code === "EAFNOSUPPORT");
    if (code && !isMissing) throw new StartFailure(sayPortFailure(host, port, code));
  }
}

/**
 * @param {string} host
 * @param {number} port
 * @returns {Promise<string | null>} the error's code, null when the port is free.
 */
function tryToListen(host, port) {
  return new Promise((resolve) => {
    const probe = net.createServer();
    probe.once("error", (/** @type {NodeJS.ErrnoException} */ error) => resolve(error.code ?? error.message));
    probe.listen({ host, port, exclusive: true }, () => probe.close(() => resolve(null)));
  });
}

/**
 * @param {string} host
 * @param {number} port
 * @param {string} code
 */
export function sayPortFailure(host, port, code) {
  if (code === "EADDRINUSE")
    return `Port ${port} is taken by another program; stop it, or choose another port with PORT=${port + 1}.`;
  if (code === "EACCES")
    return `This account may not listen on port ${port}; choose one above 1023 with PORT.`;
  return `It is not possible to listen on ${host}, port ${port} (${code}); check HOST and PORT.`;
}

/**
 * Fails when the folders we write to cannot be written, or the disk is too full.
 *
 * @param {string} root the project's folder.
 * @param {string[]} folders made when missing.
 * @param {number} neededMegabytes
 * @throws {StartFailure}
 */
export function checkDisk(root, folders, neededMegabytes) {
  for (const folder of folders) checkWritable(folder);
  const { bavail, bsize } = fs.statfsSync(root);
  const freeMegabytes = Math.floor((bavail * bsize) / 1e6);
  if (freeMegabytes < neededMegabytes)
    throw new StartFailure(
      `The disk that holds ${root} has ${freeMegabytes} MB free, and starting needs ${neededMegabytes} MB.`,
    );
}

/** @param {string} folder */
function checkWritable(folder) {
  const probe = path.join(folder, `.write-check-${process.pid}`);
  try {
    fs.mkdirSync(folder, { recursive: true, mode: 0o711 });
    fs.writeFileSync(probe, "");
    fs.rmSync(probe);
  } catch (error) {
    const { code } = /** @type {NodeJS.ErrnoException} */ (error);
    throw new StartFailure(`The folder ${folder} cannot be written to (${code}).`);
  }
}
