import fs from "node:fs";

/** Ticks a second in `/proc`: `sysconf(_SC_CLK_TCK)`, 100 on every Linux that runs Node. */
const ticksPerSecond = 100;

/**
 * Milliseconds of processor time that a process and its children have used so far.
 *
 * @returns null where there is no `/proc`.
 */
export function readFamilyProcessorMs(pid: number): number | null {
  if (!fs.existsSync(`/proc/${pid}/stat`)) return null;
  let ticks = 0;
  for (const name of fs.readdirSync("/proc")) {
    if (!/^\d+$/.test(name)) continue;
    const fields = readStat(Number(name));
    if (fields && (Number(name) === pid || fields.parent === pid)) ticks += fields.ticks;
    // What children that are gone had used is the parent's to tell.
    if (fields && Number(name) === pid) ticks += fields.ticksOfGone;
  }
  return (ticks / ticksPerSecond) * 1000;
}

/** proc(5): the name of the program stands in brackets and may hold anything; what follows is counted from there. */
function readStat(pid: number) {
  try {
    const text = fs.readFileSync(`/proc/${pid}/stat`, "utf8");
    const fields = text.slice(text.lastIndexOf(")") + 2).split(" ");
    const at = (index: number) => Number(fields[index]);
    return { parent: at(1), ticks: at(11) + at(12), ticksOfGone: at(13) + at(14) };
  } catch {
    return null;
  }
}
