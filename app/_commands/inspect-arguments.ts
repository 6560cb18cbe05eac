import { readClock } from "@/app/_ui/clock";

export const usage =
  "Usage: npm run -s inspect -- FILE [--json] [--cuts [--limit 12:00] [--rests FILE] | --hands [--tempo 90]]   (FILE is a .musicxml, .xml or .mxl file, or an exported edition: .zip)";

/** What the command is to do. */
export interface InspectArguments {
  readonly file: string;
  readonly asJson: boolean;
  /** Null without `--cuts`. */
  readonly cuts: { readonly limitSeconds: number | null; readonly restsFile: string | null } | null;
  /** Null without `--hands`. `pace` is a share of the tempo. */
  readonly hands: { readonly pace: number } | null;
}

const flags = ["--json", "--cuts", "--hands"];
/** An option with a value, and what it belongs to. */
const withValue = new Map([
  ["--limit", "--cuts"],
  ["--rests", "--cuts"],
  ["--tempo", "--hands"],
]);

/** Arguments as given: options and what follows them, and the rest. */
function sortArguments(args: readonly string[]) {
  const [files, given, values]: [string[], Set<string>, Map<string, string>] = [[], new Set(), new Map()];
  for (let at = 0; at < args.length; at += 1) {
    const arg = args[at] ?? "";
    const [name = "", ...inline] = arg.split("=");
    if (!arg.startsWith("--")) files.push(arg);
    else if (flags.includes(arg)) given.add(arg);
    else if (withValue.has(name)) {
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
  const odd = [...values.keys()].find((name) => !given.has(withValue.get(name) ?? ""));
  if (odd !== undefined) return `${odd} is for ${withValue.get(odd)}. ${usage}`;
  if (given.has("--cuts") && given.has("--hands")) return `--cuts or --hands, one at a time. ${usage}`;
  const cuts = given.has("--cuts") ? readCuts(values) : null;
  if (typeof cuts === "string") return cuts;
  const hands = given.has("--hands") ? readHands(values) : null;
  if (typeof hands === "string") return hands;
  return { file, asJson: given.has("--json"), cuts, hands };
}

function readCuts(values: ReadonlyMap<string, string>): InspectArguments["cuts"] | string {
  const limit = values.get("--limit");
  const limitSeconds = limit === undefined ? null : readClock(limit);
  if (limit !== undefined && limitSeconds === null) {
    return `The limit ${limit.slice(0, 20)} is no time: write it like 12:00, or 12 for minutes.`;
  }
  return { limitSeconds, restsFile: values.get("--rests") ?? null };
}

function readHands(values: ReadonlyMap<string, string>): InspectArguments["hands"] | string {
  const tempo = values.get("--tempo") ?? "100";
  const percent = Number(tempo.replace(/%$/, ""));
  if (!(percent >= 10 && percent <= 300)) {
    return `The tempo ${tempo.slice(0, 20)} is no share of the printed one: write it in percent, 90 for a little slower.`;
  }
  return { pace: percent / 100 };
}
