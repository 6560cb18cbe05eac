/**
 * Whether a process with this number exists, whoever owns it.
 *
 * @param {number} pid
 */
export function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return /** @type {NodeJS.ErrnoException} */ (error).code === "EPERM";
  }
}
