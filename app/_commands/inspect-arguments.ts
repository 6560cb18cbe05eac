import { readClock } from "@/app/_ui/clock";

export const usage =
  "Usage: npm run -s inspect -- FILE [--json] [--cuts [--limit 12:00] [--rests FILE]]   (FILE is a .musicxml, .xml or .mxl file, or an exported edition: .zip)";

/** What the command is to do. */
export interface InspectArguments {
  readonly file: string;
  readonly asJson: boolean;
  /** Null without `--cuts`. */
  readonly cuts: { readonly limitSeconds: number | null; readonly restsFile: string | null } | null;
}

const flags = ["--json", "--cuts"];
const withValue = ["--limit", "--rests"];

/** Arguments as given: options and what follows them, and the rest. */
function sortArguments(args: readonly string[]) {
  const [files, given, values]: [string[], Set<string>, Map<string, string>] = [[], new Set(), new Map()];
  for (let at = 0; at < args.length; at += 1) {
    const arg = args[at] ?? "";
    const [name = "", ...inline] = arg.split("=");
    if (!arg.startsWith("--")) files.push(arg);
    else if (flags.includes(arg)) given.add(arg);
    else if (withValue.includes(name)) {
      const value = inline.length > 0 ? inline.join("=") : args[at + 1];
      if (inline.length === 0) at += 1;
      if (value === undefined || value === "" || value.startsWith("--"))
        return `${name} needs a value. ${usage}`;
      values.set(name, value);
    } else return usage;
  }
  return { files, given, values };
}

/** @returns a sentence for the reader where the arguments make no sense. */
export function readInspectArguments(args: readonly string[]): InspectArguments | string {
  const sorted = sortArguments(args);
  if (typeof sorted === "string") return sorted;
  const { files, given, values } = sorted;
  const [file] = files;
  if (file === undefined || files.length > 1) return usage;
  const asJson = given.has("--json");
  const limit = values.get("--limit");
  if (!given.has("--cuts")) {
    const [odd] = values.keys();
    return odd === undefined ? { file, asJson, cuts: null } : `${odd} is for --cuts. ${usage}`;
  }
  const limitSeconds = limit === undefined ? null : readClock(limit);
  if (limit !== undefined && limitSeconds === null) {
    return `The limit ${limit.slice(0, 20)} is no time: write it like 12:00, or 12 for minutes.`;
  }
  return { file, asJson, cuts: { limitSeconds, restsFile: values.get("--rests") ?? null } };
}
