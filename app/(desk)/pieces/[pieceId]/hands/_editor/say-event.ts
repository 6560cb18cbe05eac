import type { RewriteEvent } from "@/lib/edition/rewrite-terms";
import type { DrawnPassage } from "@/lib/engrave/passage/drawn-passage";
import { sayPitch } from "@/lib/rewrites/editing/say-pitch";
import { quartersAsNumber, readQuarters } from "@/lib/score/quarters";

/** Names of note values by their length in quarter notes; others are told by their length. */
const values: Readonly<Record<string, string>> = {
  "4": "a whole note",
  "3": "a dotted half",
  "2": "a half",
  "3/2": "a dotted quarter",
  "1": "a quarter",
  "3/4": "a dotted eighth",
  "1/2": "an eighth",
  "3/8": "a dotted 16th",
  "1/4": "a 16th",
  "1/8": "a 32nd",
  "1/16": "a 64th",
};

type Bars = DrawnPassage["bars"];

/** "right hand, bar 167, beat 2.5". */
export function sayPlace({ at, staff }: Pick<RewriteEvent, "at" | "staff">, bars: Bars): string {
  const bar = bars.find(({ barIndex }) => barIndex === at.barIndex);
  const beat = readQuarters(bar?.beat ?? "1");
  const offset = readQuarters(at.offset);
  const number = beat && offset ? quartersAsNumber(offset) / quartersAsNumber(beat) + 1 : 1;
  const hand = staff === 1 ? "right hand" : "left hand";
  return `${hand}, bar ${bar?.label ?? at.barIndex + 1}, beat ${Math.round(number * 100) / 100}`;
}

/** What is struck: "E flat 5 and G 5, tremolo, accented"; "rest". */
export function sayChord({ pitches, tied, tremolo, isRolled, isAccented }: RewriteEvent): string {
  if (pitches.length === 0) return "rest";
  const notes = joined(pitches.map(sayPitch));
  const against =
    tremolo && tremolo.other.length > 0 ? ` against ${joined(tremolo.other.map(sayPitch))}` : "";
  const marks = [
    tremolo === null ? null : against === "" ? "tremolo" : "to and fro",
    isRolled ? "rolled" : null,
    isAccented ? "accented" : null,
    tied.length > 0 ? "tied on" : null,
  ].filter((mark) => mark !== null);
  return [`${notes}${against}`, ...marks].join(", ");
}

/** All of it, for those who hear the page: "E flat 5, a quarter, right hand, bar 167, beat 2". */
export function sayEvent(event: RewriteEvent, bars: Bars): string {
  return `${sayChord(event)}, ${sayLength(event)}, ${sayPlace(event, bars)}`;
}

function sayLength({ lasts }: RewriteEvent): string {
  return values[lasts] ?? `${lasts} quarters`;
}

function joined(words: readonly string[]): string {
  const last = words.at(-1) ?? "";
  return words.length < 2 ? last : `${words.slice(0, -1).join(", ")} and ${last}`;
}
