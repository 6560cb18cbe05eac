import { sayClock } from "@/lib/score/say-clock";
import { occasionWords } from "./say-performance";

const deeds: Readonly<Record<string, string>> = {
  "performance logged": "logged it",
  "performance changed": "changed it",
  "real time recorded": "wrote down how it went",
  "stopwatch recorded": "timed it with the stopwatch",
  "performance taken off": "took it off",
  "performance brought back": "brought it back",
};

/** "changed it", after the name of who did. */
export function sayDeed(what: string): string {
  return deeds[what] ?? what;
}

const fields: Readonly<Record<string, string>> = {
  ...{ kind: "Kind", name: "Name", on: "Day", startsAt: "Beginning", place: "Where", limitSeconds: "Limit" },
  ...{ editionNumber: "Edition", plannedSeconds: "Planned", realSeconds: "Time by the clock" },
  ...{ remarks: "To remember", result: "Result", sections: "Sections" },
};

/** "Result: “passed” instead of nothing"; null for what goes without saying. */
export function sayField(field: string, before: unknown, after: unknown): string | null {
  const name = fields[field];
  if (name === undefined) return null;
  if (field === "sections") return before ? "Times of the sections, instead of earlier ones" : null;
  return `${name}: ${sayValue(field, after)} instead of ${sayValue(field, before)}`;
}

function sayValue(field: string, value: unknown): string {
  if (value === null || value === undefined || value === "") return "nothing";
  if (typeof value === "number") return field === "editionNumber" ? `№ ${value}` : sayClock(value);
  if (field === "kind") return occasionWords[value as keyof typeof occasionWords] ?? String(value);
  return field === "on" || field === "startsAt" ? String(value) : `“${String(value)}”`;
}
