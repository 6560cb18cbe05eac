import fs from "node:fs";
import path from "node:path";

/**
 * Ends the children of a killed server that stayed behind on this data folder: one that computes, or was halted,
 * does not notice that its server is gone, and holds the memory that a new one needs. What it had not committed
 * was lost with its server already. To be called only when no server lives there; Linux tells which processes
 * these are, elsewhere they have to go by themselves.
 *
 * @param {string} data the data folder.
 */
export function endLeftovers(data) {
  if (process.platform !== "linux") return;
  const folder = fs.realpathSync(data);
  for (const pid of fs.readdirSync("/proc").filter((name) => /^\d+$/.test(name)))
    if (isAtWorkIn(pid, folder)) process.kill(Number(pid), "SIGKILL");
}

/**
 * Every PostgreSQL process works in its data folder.
 *
 * @param {string} pid
 * @param {string} folder
 */
function isAtWorkIn(pid, folder) {
  try {
    const name = fs.readFileSync(path.join("/proc", pid, "comm"), "utf8").trim();
    return name === "postgres" && fs.readlinkSync(path.join("/proc", pid, "cwd")) === folder;
  } catch {
    // Gone meanwhile, or somebody else's.
    return false;
  }
}
