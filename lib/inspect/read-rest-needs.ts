import { z } from "zod";
import { type FoundRest, findRestsUnderCuts } from "@/lib/breath/find-rests";
import type { RestNeed } from "@/lib/edition/rest-need";
import { findSoloPart } from "@/lib/score/find-part";
import { onsetOf } from "@/lib/score/onset-of";
import { comparePositions, type Position } from "@/lib/score/position";
import { readQuarters } from "@/lib/score/quarters";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import type { TempoMap } from "@/lib/score/tempo-map";

/** A sentence that says which entry of the file is wrong, and how. */
export interface RestsProblem {
  readonly kind: "not-json" | "not-needs" | "no-such-place" | "no-rest";
  readonly sentence: string;
}

const placeSchema = z.strictObject({ barIndex: z.int().min(0), offset: z.string() });

const [mostSeconds, mostBars] = [3600, 1000];
const amounts = {
  seconds: z.number().positive().max(mostSeconds).optional(),
  bars: z.number().positive().max(mostBars).optional(),
  why: z.string().trim().min(1).max(200),
};

/** `{ "bar": "97", … }` is the rest before bar 97; `from` and `to` name a place exactly. */
const entrySchema = z.union([
  z.strictObject({ bar: z.string().trim().min(1), ...amounts }),
  z.strictObject({ from: placeSchema, to: placeSchema, ...amounts }),
]);

type Entry = z.infer<typeof entrySchema>;

const mostEntries = 200;

/** Which of the two shapes an entry comes near, and what it lacks. */
function sayShape(input: unknown): string {
  if (typeof input !== "object" || input === null || Array.isArray(input)) return "is no object";
  const entry = input as Record<string, unknown>;
  if (!("bar" in entry) && !("from" in entry && "to" in entry)) {
    return 'names no place: give "bar", the printed number of the bar before which the soloist rests, or "from" and "to"';
  }
  if ("bar" in entry && typeof entry.bar !== "string") {
    return 'has a "bar" that is no text: write the printed number in quotes, "97"';
  }
  const known = new Set(["bar", "from", "to", "seconds", "bars", "why"]);
  const other = Object.keys(entry).find((key) => !known.has(key));
  if (other) return `has "${other.slice(0, 40)}", which means nothing here`;
  for (const [unit, most] of [
    ["seconds", mostSeconds],
    ["bars", mostBars],
  ] as const) {
    const amount = entry[unit];
    if (amount === undefined || (typeof amount === "number" && amount > 0 && amount <= most)) continue;
    return `has "${unit}" that are no number above 0 and up to ${most}`;
  }
  if (typeof entry.why !== "string" || entry.why.trim() === "")
    return 'has no "why", a few words on what the rest is for';
  return 'needs "from" and "to" like { "barIndex": 96, "offset": "0" }, or "bar" and a short "why"';
}

const countBarsWith = (score: Score, label: string) => score.bars.filter((bar) => bar.label === label);

/** The longest rest that leads into a bar, or in which the bar begins. */
function findRestBefore(rests: readonly FoundRest[], barIndex: number): FoundRest | null {
  const start = { barIndex, offset: { num: 0, den: 1 } } as Position;
  const leadsIn = rests.filter(({ to }) => to.barIndex === barIndex);
  const holds = rests.filter(
    ({ from, to }) => comparePositions(from, start) <= 0 && comparePositions(to, start) >= 0,
  );
  const [longest = null] = [...leadsIn, ...holds].sort((a, b) => b.seconds.before - a.seconds.before);
  return longest;
}

class NeedReader {
  private readonly rests: readonly FoundRest[];

  constructor(
    private readonly score: Score,
    map: TempoMap,
  ) {
    this.rests = findSoloPart(score) ? findRestsUnderCuts(score, map, [], 0) : [];
  }

  read(entry: Entry, number: number): Result<RestNeed, RestsProblem> {
    const needs = readAmount(entry);
    if (!needs) {
      return failure({
        kind: "not-needs",
        sentence: `Entry ${number} has to say how long: either "seconds" or "bars".`,
      });
    }
    const span = "bar" in entry ? this.atBar(entry.bar, number) : this.between(entry, number);
    if (!span.ok) return span;
    return success({ id: `${number}`, ...span.value, needs, why: entry.why, releasedBy: null });
  }

  private atBar(label: string, number: number): Result<Pick<RestNeed, "from" | "to">, RestsProblem> {
    const bars = countBarsWith(this.score, label);
    const [bar] = bars;
    const shown = label.slice(0, 20);
    if (!bar) {
      const range = `${this.score.bars[0]?.label ?? ""}–${this.score.bars.at(-1)?.label ?? ""}`;
      return failure({
        kind: "no-such-place",
        sentence: `Entry ${number} names bar ${shown}, which the piece does not have (its bars are ${range}).`,
      });
    }
    if (bars.length > 1) {
      return failure({
        kind: "no-such-place",
        sentence: `Entry ${number} names bar ${shown}, and ${bars.length} bars are numbered so: give "from" and "to" instead.`,
      });
    }
    const rest = findRestBefore(this.rests, bar.index);
    if (!rest || rest.seconds.before === 0) {
      return failure({
        kind: "no-rest",
        sentence: `Entry ${number}: the soloist does not rest before bar ${shown}.`,
      });
    }
    return success({ from: rest.from, to: rest.to });
  }

  private between(
    { from, to }: Extract<Entry, { from: unknown }>,
    number: number,
  ): Result<Pick<RestNeed, "from" | "to">, RestsProblem> {
    const places = [from, to].map((place) => this.placeOf(place));
    const [start, end] = places;
    if (!start || !end) {
      return failure({ kind: "no-such-place", sentence: `Entry ${number} names a place outside the piece.` });
    }
    if (comparePositions(start, end) > 0) {
      return failure({ kind: "no-such-place", sentence: `Entry ${number} ends before it begins.` });
    }
    return success({ from: start, to: end });
  }

  private placeOf({ barIndex, offset }: z.infer<typeof placeSchema>): Position | null {
    const quarters = readQuarters(offset);
    if (!quarters) return null;
    const position = { barIndex, offset: quarters };
    try {
      onsetOf(this.score, position);
      return position;
    } catch (error) {
      if (error instanceof RangeError) return null;
      throw error;
    }
  }
}

function readAmount({ seconds, bars }: Entry): RestNeed["needs"] | null {
  if (seconds !== undefined && bars === undefined) return { seconds };
  return bars !== undefined && seconds === undefined ? { bars } : null;
}

/**
 * Reads the soloist's needed rests from JSON: a list of `{ "bar": "97", "seconds": 25, "why": "lip" }`, the rest before the
 * bar with this printed number, or with exact places `"from": { "barIndex": 96, "offset": "0" }, "to": …`; and `bars`
 * instead of `seconds` where players count them.
 *
 * @returns needs whose ids are their numbers in the list, from 1.
 */
export function readRestNeeds(text: string, score: Score, map: TempoMap): Result<RestNeed[], RestsProblem> {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return failure({ kind: "not-json", sentence: "The file of rests is not JSON." });
  }
  if (!Array.isArray(json)) {
    return failure({
      kind: "not-needs",
      sentence: "The file of rests has to hold a list: [ { … }, { … } ].",
    });
  }
  if (json.length > mostEntries) {
    return failure({
      kind: "not-needs",
      sentence: `The file of rests has more than ${mostEntries} entries.`,
    });
  }
  const reader = new NeedReader(score, map);
  const needs: RestNeed[] = [];
  for (const [index, one] of json.entries()) {
    const entry = entrySchema.safeParse(one);
    if (!entry.success) {
      return failure({ kind: "not-needs", sentence: `Entry ${index + 1} ${sayShape(one)}.` });
    }
    const need = reader.read(entry.data, index + 1);
    if (!need.ok) return need;
    needs.push(need.value);
  }
  return success(needs);
}
