import type { RoomMapName } from "./room-keys";

/** Where in a room a change was refused. */
export interface RecordPlace {
  readonly map: RoomMapName;
  readonly key: string;
}

/** Why an update does not enter a room. */
export type RoomProblem =
  | { readonly kind: "unreadable-update" }
  | { readonly kind: "incomplete-update" }
  | { readonly kind: "update-too-large"; readonly bytes: number; readonly limit: number }
  | { readonly kind: "unknown-content"; readonly name: string }
  /** Its writes are numbered as those of someone else's open page. */
  | { readonly kind: "not-your-page" }
  | { readonly kind: "reads-only" }
  | { readonly kind: "record-removed"; readonly place: RecordPlace }
  | { readonly kind: "invalid-record"; readonly place: RecordPlace; readonly detail: string }
  | { readonly kind: "not-in-your-name"; readonly place: RecordPlace }
  | { readonly kind: "not-your-record"; readonly place: RecordPlace }
  | { readonly kind: "fixed-field-changed"; readonly place: RecordPlace; readonly field: string }
  | { readonly kind: "role-may-not"; readonly place: RecordPlace }
  | { readonly kind: "clock-ahead"; readonly place: RecordPlace }
  | { readonly kind: "room-full"; readonly place: RecordPlace; readonly limit: number };

const words = {
  comments: { one: "comment", many: "comments" },
  resolutions: { one: "resolved mark", many: "resolved marks" },
  breaths: { one: "breath", many: "breaths" },
  pencilledCuts: { one: "pencilled cut", many: "pencilled cuts" },
  cues: { one: "cue", many: "cues" },
} as const;

/** One sentence for the person whose change was refused. */
export function sayRoomProblem(problem: RoomProblem): string {
  switch (problem.kind) {
    case "unreadable-update":
      return "What arrived could not be read. It was not stored; the piece is as it was.";
    case "incomplete-update":
      return "A part of what you wrote is still missing here. It is sent again.";
    case "update-too-large":
      return `This is too much at once (${problem.bytes} of at most ${problem.limit} bytes). Write it in smaller pieces.`;
    case "unknown-content":
      return "This program is older or newer than the server. Load the page again; copy your text first.";
    case "not-your-page":
      return "This page and another person's got mixed up. It is written again from here.";
    case "reads-only":
      return "You read this piece. Only its players and coaches write in it.";
    case "record-removed":
      return `A ${words[problem.place.map].one} is never erased. Delete it, and it can be brought back.`;
    case "invalid-record":
      return `This ${words[problem.place.map].one} is not as it should be: ${problem.detail}.`;
    case "not-in-your-name":
      return `A ${words[problem.place.map].one} can be written only in your own name.`;
    case "not-your-record":
      return `Only the person who wrote this ${words[problem.place.map].one} changes it.`;
    case "fixed-field-changed":
      return problem.place.map === "pencilledCuts"
        ? "A pencilled cut is moved by writing it anew over the old one; the old one stays as it was."
        : `What a ${words[problem.place.map].one} belongs to cannot be changed afterwards (${problem.field}).`;
    case "role-may-not":
      return sayWhoMay(problem.place.map);
    case "clock-ahead":
      return "The clock of this device is more than a day ahead. Set it right and write again.";
    case "room-full":
      return `This piece holds ${problem.limit} ${words[problem.place.map].many}, and no more fit.`;
    default:
      return assertNever(problem);
  }
}

function sayWhoMay(map: RoomMapName): string {
  if (map === "breaths") return "Breaths are marked by the two players.";
  if (map === "cues") return "Cues are written by the two players.";
  if (map === "pencilledCuts") return "Cuts are pencilled in by the two players.";
  return "Only the players and coaches of this piece write in it.";
}

/** The record a problem is about, when it is about one. */
export function placeOf(problem: RoomProblem): RecordPlace | null {
  return "place" in problem ? problem.place : null;
}

function assertNever(problem: never): never {
  throw new RangeError(`Unknown problem: ${JSON.stringify(problem)}`);
}
