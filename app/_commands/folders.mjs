import path from "node:path";
import { fileURLToPath } from "node:url";

/** The folder that holds the project. */
export const root = fileURLToPath(new URL("../..", import.meta.url)).replace(/[/\\]$/, "");

/** What the product keeps: the embedded database, the secret. Git-ignored. */
export const dataFolder = path.join(root, ".data");

/** What can be made again: stamps, logs of long steps. Git-ignored. */
export const cacheFolder = path.join(root, ".cache");

/** The bundled server, its workers and the demo. Git-ignored. */
export const bundleFolder = path.join(root, "dist");

/**
 * A path inside the project, as a person would write it.
 *
 * @param {string} file
 */
export function shown(file) {
  return path.relative(root, file) || ".";
}
