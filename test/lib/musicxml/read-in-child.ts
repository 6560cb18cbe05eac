import { existsSync, readFileSync } from "node:fs";
import { ReadFailure } from "@/lib/musicxml/read-failure";
import { sayReadProblem } from "@/lib/musicxml/read-problem";
import { readScore } from "@/lib/musicxml/read-score";
import { readTree } from "@/lib/musicxml/read-tree";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";

// Reads the files named on the command line, as a stream or as a tree, and prints what came of each, a line of JSON a
// file. Runs in a process of its own, so that the limits on time and memory can be enforced from outside.

const [, , way, ...files] = process.argv;

function readFromTree(bytes: Uint8Array) {
  const tree = readTree(bytes);
  if (!tree.ok) return tree;
  try {
    return { ok: true as const, value: scoreFromTree(tree.value) };
  } catch (error) {
    if (error instanceof ReadFailure) return { ok: false as const, problem: error.problem };
    throw error;
  }
}

function say(read: ReturnType<typeof readFromTree>) {
  if (!read.ok) return { problem: read.problem.kind, sentences: [sayReadProblem(read.problem)] };
  const { notices } = read.value;
  return { notices: notices.map(({ kind }) => kind), sentences: notices.map(({ sentence }) => sentence) };
}

/** The most memory that this program has held. What the system counts for the process may hold its parent's too. */
function mostMegabytes(): number {
  const status = "/proc/self/status";
  const highest = existsSync(status)
    ? /VmHWM:\s*(\d+) kB/.exec(readFileSync(status, "utf8"))?.[1]
    : undefined;
  return (highest === undefined ? process.resourceUsage().maxRSS : Number(highest)) / 1024;
}

for (const file of files) {
  const bytes = new Uint8Array(readFileSync(file));
  const said = say(way === "tree" ? readFromTree(bytes) : readScore(bytes));
  console.log(JSON.stringify({ ...said, megabytes: mostMegabytes() }));
}
