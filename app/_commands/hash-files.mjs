import crypto from "node:crypto";
import fs from "node:fs";
import path from "node:path";

/**
 * One hash over the names and contents of files and of everything under folders, so that a step is repeated
 * exactly when what it reads has changed. What does not exist counts as absent.
 *
 * @param {string} root
 * @param {string[]} names files and folders inside `root`.
 * @param {(name: string) => boolean} [isWanted] leaves files out, by their name inside `root`.
 * @returns {string} SHA-256, hexadecimal.
 */
export function hashFiles(root, names, isWanted = () => true) {
  const hash = crypto.createHash("sha256");
  for (const name of names.flatMap((name) => listFiles(root, name)).sort()) {
    if (!isWanted(name)) continue;
    const content = fs.readFileSync(path.join(root, name));
    hash.update(`${name}\0${content.length}\0`).update(content);
  }
  return hash.digest("hex");
}

/**
 * @param {string} root
 * @param {string} name
 * @returns {string[]}
 */
function listFiles(root, name) {
  const file = path.join(root, name);
  const found = fs.statSync(file, { throwIfNoEntry: false });
  if (!found) return [];
  if (!found.isDirectory()) return [name];
  return fs.readdirSync(file).flatMap((child) => listFiles(root, `${name}/${child}`));
}
