import type { Note } from "@/lib/score/note";
import { isEqualQuarters, type Quarters, subtractQuarters, writeQuarters } from "@/lib/score/quarters";
import type { HeardPart } from "./heard-parts";
import { type Loudness, readLoudness } from "./loudness";
import { findRolls } from "./roll-chords";
import type { ScheduledNote } from "./schedule";
import type { PlacedGrace, PlacedNotes, StruckNote } from "./struck-notes";

/** How much of its length a note sounds. Common practice; a slightly separated note is the player's business, not ours. */
const soundingShare: Readonly<Record<string, number>> = {
  ...{ staccatissimo: 0.3, spiccato: 0.4, staccato: 0.5, "detached-legato": 0.75 },
};
/** How much stronger a note is struck. Common practice; the numbers are our choice. */
const strengths: Readonly<Record<string, number>> = { accent: 1.15, "strong-accent": 1.3, stress: 1.1 };
/** Grace notes are struck lightly. */
const graceStrength = 0.85;
/** Longest of one grace note, in seconds, whatever the tempo. Common practice (70 to 100 ms). */
const graceSeconds = 0.085;

interface Sounding {
  readonly part: HeardPart;
  /** Number of the part among those heard. */
  readonly voice: number;
  readonly secondsAt: (performed: Quarters) => number;
  /** The start, and every seam, in seconds. */
  readonly breaks: readonly number[];
}

/**
 * The notes of a part with their seconds and strength.
 *
 * - Grace notes come before the beat and take their time from what sounds before them in their part, at most half of it. At the
 *   start and behind a cut there is nothing before them: there they come on the beat, and the note they lead to waits, for
 *   half its length at most.
 * - Staccato and the like shorten, accents and sforzati strengthen. A tied note keeps its length.
 * - Of a rolled chord the lowest note comes on its beat, the others one after the other.
 */
export function soundNotes(placed: PlacedNotes, sounding: Sounding): ScheduledNote[] {
  const { struck } = placed;
  const loudness = readLoudness(sounding.part.part);
  const groups = groupGraces(placed.graces, struck, sounding);
  const waits = new Map(groups.flatMap(({ key, waits }) => (waits > 0 ? [[key, waits] as const] : [])));
  const steals = new Map(groups.flatMap(({ key, starts }) => [[key, starts] as const]));
  const { secondsAt } = sounding;
  const rolls = findRolls(struck, ({ from, to }) => secondsAt(to) - secondsAt(from));
  const main = struck.map((one) =>
    toScheduled(one, sounding, loudness, { waits, steals, rolled: rolls.get(one) ?? 0 }),
  );
  const graces = groups.flatMap(({ slots }) =>
    slots.map(({ grace, from, to }) => soundGrace(grace, from, to, sounding, loudness)),
  );
  return [...main, ...graces];
}

/** Grace notes and what they lead to are of one voice on one staff. */
const keyOf = (note: Note, at: Quarters) => `${note.staff} ${note.voice} ${writeQuarters(at)}`;

function common({ part, voice }: Sounding, note: Note, midi: number) {
  const { channel, role } = part.voice;
  return { noteId: note.id, role, voice, channel, midi, staff: note.staff };
}

interface Around {
  /** What grace notes do to the notes that they lead to, and to those before them. */
  readonly waits: ReadonlyMap<string, number>;
  readonly steals: ReadonlyMap<string, number>;
  /** How long it waits in its chord. */
  readonly rolled: number;
}

function toScheduled(
  { note, midi, from, to, isPartial }: StruckNote,
  sounding: Sounding,
  loudness: Loudness,
  { waits, steals, rolled }: Around,
): ScheduledNote {
  const { secondsAt } = sounding;
  const onsetSeconds = secondsAt(from) + (isPartial ? 0 : (waits.get(keyOf(note, from)) ?? 0)) + rolled;
  const fullEnd = secondsAt(to);
  const stolen = Math.min(fullEnd, steals.get(keyOf(note, to)) ?? fullEnd);
  const isWhole = isEqualQuarters(subtractQuarters(to, from), note.duration);
  const share = isWhole && !note.hasFermata ? shareOf(note) : 1;
  const endSeconds = Math.max(
    onsetSeconds,
    Math.min(stolen, onsetSeconds + (fullEnd - onsetSeconds) * share),
  );
  const velocity = loudness.velocityAt(note.onset, strengthOf(note));
  return { ...common(sounding, note, midi), onsetSeconds, endSeconds, velocity, isGrace: false };
}

function soundGrace(
  { note, midi }: PlacedGrace,
  onsetSeconds: number,
  endSeconds: number,
  sounding: Sounding,
  loudness: Loudness,
): ScheduledNote {
  const velocity = loudness.velocityAt(note.onset, graceStrength * strengthOf(note));
  return { ...common(sounding, note, midi), onsetSeconds, endSeconds, velocity, isGrace: true };
}

const shareOf = ({ articulations }: Note) =>
  Math.min(1, ...articulations.map((name) => soundingShare[name] ?? 1));

const strengthOf = ({ articulations }: Note) =>
  Math.max(1, ...articulations.map((name) => strengths[name] ?? 1));

interface GraceGroup {
  readonly key: string;
  readonly slots: readonly { readonly grace: PlacedGrace; readonly from: number; readonly to: number }[];
  /** How long the note they lead to waits. */
  readonly waits: number;
  /** When the first of them begins: what sounds before in their voice ends there. */
  readonly starts: number;
}

function groupGraces(
  graces: readonly PlacedGrace[],
  struck: readonly StruckNote[],
  { secondsAt, breaks }: Sounding,
): GraceGroup[] {
  if (graces.length === 0) return [];
  const groups = new Map<string, PlacedGrace[]>();
  for (const grace of graces) {
    const key = keyOf(grace.note, grace.at);
    const group = groups.get(key);
    if (group) group.push(grace);
    else groups.set(key, [grace]);
  }
  const onsets = [...new Set([...breaks, ...struck.map(({ from }) => secondsAt(from))])].sort(
    (a, b) => a - b,
  );
  const principals = new Map(struck.map((one) => [keyOf(one.note, one.from), one]));
  return [...groups].map(([key, group]) => {
    const first = group[0] as PlacedGrace; // a group has one at least
    const beat = secondsAt(first.at);
    const count = group.filter(({ note }) => !note.isChordMember).length || 1;
    const principal = principals.get(key);
    const room = first.isFirst
      ? secondsAt(principal?.to ?? first.at) - beat
      : beat - lastBefore(onsets, beat);
    const each = Math.min(graceSeconds, room / 2 / count);
    const starts = first.isFirst ? beat : beat - each * count;
    let slot = -1;
    const slots = group.map((grace) => {
      if (!grace.note.isChordMember || slot < 0) slot += 1;
      return { grace, from: starts + slot * each, to: starts + (slot + 1) * each };
    });
    return { key, slots, waits: first.isFirst ? each * count : 0, starts };
  });
}

/** The last of ordered moments before another; 0 when there is none. */
function lastBefore(moments: readonly number[], moment: number): number {
  let [low, high] = [0, moments.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((moments[middle] ?? 0) < moment - 1e-9) low = middle + 1;
    else high = middle;
  }
  return moments[low - 1] ?? 0;
}
