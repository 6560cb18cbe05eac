import { readFileSync } from "node:fs";
import { inspectSource } from "@/lib/inspect/inspect-source";
import { sayReport } from "@/lib/inspect/say-report";
import { sayReadProblem } from "@/lib/musicxml/read-problem";

const usage = "Usage: npm run -s inspect -- FILE [--json]   (FILE is a .musicxml, .xml or .mxl file)";

/** A sentence for the reader, and the exit code of a command that could not do its work. */
function fail(sentence: string): void {
  console.error(sentence);
  process.exitCode = 1;
}

function readBytes(file: string): Uint8Array | null {
  try {
    return readFileSync(file);
  } catch (error) {
    const code = error instanceof Error && "code" in error ? error.code : null;
    fail(
      code === "ENOENT" ? `There is no file ${file}.` : `The file ${file} cannot be read (${code ?? error}).`,
    );
    return null;
  }
}

/** `npm run -s inspect -- FILE [--json]`: what is in a score, for people, or as JSON for programs. */
function run(args: readonly string[]): void {
  const files = args.filter((arg) => !arg.startsWith("--"));
  const unknown = args.find((arg) => arg.startsWith("--") && arg !== "--json");
  const [file] = files;
  if (file === undefined || files.length > 1 || unknown) {
    fail(usage);
    return;
  }
  const bytes = readBytes(file);
  if (bytes) report(bytes, args.includes("--json"));
}

function report(bytes: Uint8Array, asJson: boolean): void {
  const inspected = inspectSource(bytes);
  if (!inspected.ok) fail(sayReadProblem(inspected.problem));
  else console.log(asJson ? JSON.stringify(inspected.value, null, 2) : sayReport(inspected.value));
}

run(process.argv.slice(2));
