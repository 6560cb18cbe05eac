import { groupByBar } from "@/lib/score/group-by-bar";
import type { Note } from "@/lib/score/note";
import type { Part } from "@/lib/score/part";
import type { PerformedBar, PerformedOrder } from "@/lib/score/performed-order";
import { midiNumber } from "@/lib/score/pitch";
import { isPlayed } from "@/lib/score/playing-spans";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  type Quarters,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { TempoMap } from "@/lib/score/tempo-map";
import { readTimeline, type Timeline } from "@/lib/score/timeline";
import { findPedalled } from "./find-pedalled";

/** A hand that may turn a page. A wind or string player has no hand that plays alone: the player as a whole. */
export type HandName = "right hand" | "left hand" | "both hands" | "player";

/** Clock time in seconds of the performance, end exclusive. */
export interface BusySpan {
  readonly from: number;
  readonly to: number;
}

/** When a hand cannot leave the keys, or a player the instrument. */
export interface HandWork {
  readonly name: HandName;
  /** In order and apart from one another. */
  readonly busy: readonly BusySpan[];
}

/** What somebody who reads from the pages does over the whole performance. */
export interface ReadersWork {
  readonly hands: readonly HandWork[];
  /** When notes of any hand begin, in seconds and in order: what cannot be read while a page is in the air. */
  readonly onsets: readonly number[];
  /** When holds (fermatas) end, in seconds and in order. */
  readonly holdEnds: readonly number[];
  readonly timeline: Timeline;
}

/** How long a hand stays on a note that the pedal, or a held pedal under a fermata, goes on holding. From memory. */
const touchSeconds = 0.25;

/** More than a tenth struck at once in one staff is divided between the hands. Common practice. */
const widestReach = 16;

interface WorkNote {
  readonly staff: number;
  readonly from: number;
  readonly to: number;
  readonly pitch: number | null;
}

/**
 * When the hands of a reader are busy: each staff is a hand's, the upper ones the right hand's, and a rest in it frees
 * the hand. A note that the pedal holds to its end, or that stands under a fermata, binds the hand of a pianist only as long as
 * it takes to strike it. A chord wider than a tenth in one staff binds both hands.
 *
 * @param order what is played: repeats taken, cuts left out.
 * @param parts those that the reader plays.
 */
export function readHandWork(
  score: Score,
  order: PerformedOrder,
  map: TempoMap,
  parts: readonly Part[],
  reader: "pianist" | "soloist",
): ReadersWork {
  const timeline = readTimeline(score, order, map);
  const notes: WorkNote[] = [];
  const holdEnds: number[] = [];
  let staffCount = 0;
  for (const part of parts) {
    const placed = placePart({ score, order, timeline }, part, staffCount, reader === "pianist");
    notes.push(...placed.notes);
    holdEnds.push(...placed.holdEnds);
    staffCount += part.staffCount;
  }
  notes.sort((a, b) => a.from - b.from);
  return {
    hands: divideAmongHands(notes, reader, staffCount),
    onsets: [...new Set(notes.map(({ from }) => from))],
    holdEnds: [...new Set(holdEnds)].sort((a, b) => a - b),
    timeline,
  };
}

interface Performance {
  readonly score: Score;
  readonly order: PerformedOrder;
  readonly timeline: Timeline;
}

function placePart(
  { score, order, timeline }: Performance,
  part: Part,
  staffBefore: number,
  canLeaveHeldNotes: boolean,
): { notes: WorkNote[]; holdEnds: number[] } {
  const notesOfBar = groupByBar(part.notes.filter(isPlayed));
  const restsOfBar = groupByBar(part.rests.filter(({ hasFermata }) => hasFermata));
  const isPedalled = findPedalled(part);
  // One note of a chord carries the sign for all.
  const held = new Set(
    part.notes.filter(({ hasFermata }) => hasFermata).map(({ onset }) => writeQuarters(onset)),
  );
  const notes: WorkNote[] = [];
  const holdEnds: number[] = [];
  for (const performed of order.bars) {
    const place = placeIn(score, performed, timeline);
    for (const note of notesOfBar.get(performed.barIndex) ?? []) {
      const span = place(note);
      if (!span) continue;
      const isHeld = held.has(writeQuarters(note.onset));
      const isLeft = canLeaveHeldNotes && (isHeld || isPedalled(note));
      const to = isLeft ? Math.min(span.to, span.from + touchSeconds) : span.to;
      notes.push({ staff: staffBefore + note.staff, from: span.from, to, pitch: pitchOf(note) });
      if (isHeld) holdEnds.push(span.to);
    }
    for (const rest of restsOfBar.get(performed.barIndex) ?? []) {
      const span = place(rest);
      if (span) holdEnds.push(span.to);
    }
  }
  return { notes, holdEnds };
}

const pitchOf = (note: Note): number | null => (note.sounding ? midiNumber(note.sounding) : null);

/** Seconds of what begins in the part of a bar that is played; null for what a cut took. */
function placeIn(score: Score, performed: PerformedBar, timeline: Timeline) {
  const barStart = score.bars[performed.barIndex]?.start;
  return ({ onset, duration }: { onset: Quarters; duration: Quarters }): BusySpan | null => {
    if (!barStart) return null;
    const [from, to] = [addQuarters(barStart, performed.from), addQuarters(barStart, performed.to)];
    if (compareQuarters(onset, from) < 0 || compareQuarters(onset, to) >= 0) return null;
    const shift = subtractQuarters(performed.start, from);
    const end = earlierOf(addQuarters(onset, duration), to);
    return {
      from: timeline.secondsAtPerformed(addQuarters(onset, shift)),
      to: timeline.secondsAtPerformed(addQuarters(end, shift)),
    };
  };
}

function divideAmongHands(
  notes: readonly WorkNote[],
  reader: "pianist" | "soloist",
  staffCount: number,
): HandWork[] {
  const one = (name: HandName): HandWork[] => [{ name, busy: joinSpans(notes) }];
  if (reader === "soloist") return one("player");
  if (staffCount < 2) return one("both hands");
  const divided = findDivided(notes);
  const isRight = ({ staff }: WorkNote) => staff <= staffCount / 2;
  return [
    { name: "right hand", busy: joinSpans(notes.filter((note) => isRight(note) || divided.has(note))) },
    { name: "left hand", busy: joinSpans(notes.filter((note) => !isRight(note) || divided.has(note))) },
  ];
}

/** Notes of chords that one hand cannot strike. */
function findDivided(notes: readonly WorkNote[]): Set<WorkNote> {
  const struck = new Map<string, WorkNote[]>();
  for (const note of notes) {
    const key = `${note.staff} ${note.from}`;
    struck.set(key, [...(struck.get(key) ?? []), note]);
  }
  const divided = new Set<WorkNote>();
  for (const chord of struck.values()) {
    const pitches = chord.flatMap(({ pitch }) => (pitch === null ? [] : [pitch]));
    if (Math.max(...pitches) - Math.min(...pitches) > widestReach)
      for (const note of chord) divided.add(note);
  }
  return divided;
}

/** Closer than this is not a gap: seconds of one moment may differ in their last digits. */
const sameMoment = 1e-6;

function joinSpans(spans: readonly BusySpan[]): BusySpan[] {
  const joined: { from: number; to: number }[] = [];
  for (const { from, to } of spans) {
    const last = joined.at(-1);
    if (last && from <= last.to + sameMoment) last.to = Math.max(last.to, to);
    else joined.push({ from, to });
  }
  return joined;
}
