import { toPosition } from "@/lib/edition/position-terms";
import type { RewriteEvent, RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { HandName } from "@/lib/hands/hands-profile";
import { midiNumber } from "@/lib/score/pitch";
import type { Position } from "@/lib/score/position";
import { addQuarters, compareQuarters, readQuarters } from "@/lib/score/quarters";

/** What one hand does with the keys at a place. */
export interface KeyFigure {
  /** Struck together, or the first of two that alternate. */
  readonly keys: readonly RewritePitch[];
  /** Struck in alternation with `keys`; empty when nothing alternates. */
  readonly other: readonly RewritePitch[];
  readonly isRolled: boolean;
  /** How often the same is struck again in its bar, itself included; a tremolo counts as one. */
  readonly times: number;
}

const midiOf = (pitch: RewritePitch): number => midiNumber(pitch);

const keysOf = (event: RewriteEvent) => [...event.pitches, ...(event.tremolo?.other ?? [])].map(midiOf);

/** Of one staff: the right hand has the first, the left hand the last. */
function isOfHand({ staff }: RewriteEvent, hand: HandName, staffCount: number): boolean {
  return (staffCount > 1 && staff >= staffCount) === (hand === "left");
}

function soundsAt({ at, lasts }: RewriteEvent, { barIndex, offset }: Position): boolean {
  const from = toPosition(at);
  const length = readQuarters(lasts);
  if (length === null || from.barIndex !== barIndex) return false;
  return (
    compareQuarters(from.offset, offset) <= 0 && compareQuarters(offset, addQuarters(from.offset, length)) < 0
  );
}

/**
 * The keys that one hand has at a place of a rewrite, or of the print in its terms; null when it rests there.
 *
 * @param hand whose staff is looked at; the hands of the rewrite are its staves.
 */
export function findKeyFigure(terms: RewriteTerms, at: Position, hand: HandName): KeyFigure | null {
  const staffCount = Math.max(1, ...terms.events.map(({ staff }) => staff));
  const events = terms.events.filter(
    (event) => event.pitches.length > 0 && isOfHand(event, hand, staffCount) && soundsAt(event, at),
  );
  const [first] = events;
  if (!first) return null;
  const rocking = events.find(({ tremolo }) => (tremolo?.other.length ?? 0) > 0);
  const other = rocking?.tremolo?.other ?? [];
  const keys = sortKeys(events.flatMap(({ pitches }) => pitches));
  const sameAs = JSON.stringify(keysOf(first));
  const times = terms.events.filter(
    (event) =>
      event.at.barIndex === at.barIndex &&
      event.staff === first.staff &&
      JSON.stringify(keysOf(event)) === sameAs,
  ).length;
  return { keys, other: sortKeys(other), isRolled: events.some(({ isRolled }) => isRolled), times };
}

function sortKeys(pitches: readonly RewritePitch[]): RewritePitch[] {
  const byKey = new Map(pitches.map((pitch) => [midiOf(pitch), pitch]));
  return [...byKey].sort(([a], [b]) => a - b).map(([, pitch]) => pitch);
}

/** "E♭", without its octave. */
export function namePitch({ step, alter }: RewritePitch): string {
  return step + (alter < 0 ? "♭".repeat(-alter) : "♯".repeat(alter));
}

/** "G, B♭ and E♭". */
export function listPitches(pitches: readonly RewritePitch[]): string {
  const names = pitches.map(namePitch);
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

/** What the hand does, in words: the first of them bold on the screen. */
export function sayKeyFigure(figure: KeyFigure | null): { readonly how: string; readonly what: string } {
  if (figure === null) return { how: "rests", what: "" };
  const { keys, other, isRolled, times } = figure;
  if (other.length > 0) return { how: "rocked,", what: `${listPitches(keys)} against ${listPitches(other)}` };
  const again = times > 1 ? `${times} times in the bar` : "once in the bar";
  if (isRolled) return { how: "rolled", what: `from ${namePitch(keys[0] as RewritePitch)} up, ${again}` };
  return { how: keys.length > 1 ? "struck together," : "struck,", what: again };
}

/** Which keys are drawn: whole octaves from a C, at least two, so that two figures side by side have one scale. */
export function keyRange(pitches: readonly RewritePitch[]): { readonly from: number; readonly to: number } {
  const keys = pitches.map(midiOf);
  if (keys.length === 0) return { from: 60, to: 83 };
  const from = 12 * Math.floor(Math.min(...keys) / 12);
  const octaves = Math.max(2, Math.ceil((Math.max(...keys) + 1 - from) / 12));
  return { from, to: from + 12 * octaves - 1 };
}
