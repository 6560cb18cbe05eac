import crypto from "node:crypto";
import fs from "node:fs";

/**
 * The secret that signs cookies and links, made once and readable by its owner only.
 *
 * @param {string} file
 * @returns {string} 64 hexadecimal digits.
 */
export function readSecret(file) {
  try {
    return fs.readFileSync(file, "utf8").trim();
  } catch (error) {
    if (/** @type {NodeJS.ErrnoException} */ (error).code !== "ENOENT") throw error;
  }
  const secret = crypto.randomBytes(32).toString("hex");
  fs.writeFileSync(file, `${secret}\n`, { mode: 0o600, flag: "wx" });
  return secret;
}
