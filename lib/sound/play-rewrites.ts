import { toPosition } from "@/lib/edition/position-terms";
import type { RewriteEvent, RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { Note, Tremolo } from "@/lib/score/note";
import type { Part } from "@/lib/score/part";
import { midiNumber } from "@/lib/score/pitch";
import { comparePositions, type Position } from "@/lib/score/position";
import {
  addQuarters,
  compareQuarters,
  type Quarters,
  readQuarters,
  scaleQuarters,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { atPitch, soundingPitch } from "@/lib/score/transposition";

/**
 * A score in which rewrites are played instead of what is printed in their bars; everything else in it stays: tempi,
 * loudness, the other parts. Of rewrites that overlap the last holds. One of a part that the score lacks is left out.
 *
 * @throws RangeError if an event lies in a bar that the score lacks.
 */
export function playRewrites(score: Score, rewrites: readonly RewriteTerms[]): Score {
  if (rewrites.length === 0) return score;
  return rewrites.reduce(playRewrite, score);
}

function playRewrite(score: Score, rewrite: RewriteTerms): Score {
  const [from, to] = [toPosition(rewrite.from), toPosition(rewrite.to)];
  const isAround = (at: Position) => comparePositions(at, from) < 0 || comparePositions(at, to) >= 0;
  const parts = score.parts.map((part) => {
    if (part.id !== rewrite.partId) return part;
    const kept = part.notes.filter(({ barIndex, onset }) => {
      const start = score.bars[barIndex]?.start;
      return !start || isAround({ barIndex, offset: subtractQuarters(onset, start) });
    });
    const played = rewrite.events.flatMap((event) => notesOf(score, part, event));
    return { ...part, notes: inTime([...kept, ...joinTies(played)]) };
  });
  return { ...score, parts };
}

/** Ties hold from note to note of a voice, as they are printed: never into the rewrite, nor out of it. */
function joinTies(notes: readonly Note[]): Note[] {
  const nameAt = ({ staff, voice, written }: Note, at: Quarters) =>
    `${staff} ${voice} ${writeQuarters(at)} ${JSON.stringify(written)}`;
  const begins = new Set(notes.map((note) => nameAt(note, note.onset)));
  const isHeld = (note: Note) => note.tieStart && begins.has(nameAt(note, endOf(note)));
  const held = new Set(notes.filter(isHeld).map((note) => nameAt(note, endOf(note))));
  return notes.map((note) => ({
    ...note,
    tieStart: isHeld(note),
    tieStop: held.has(nameAt(note, note.onset)),
  }));
}

const endOf = ({ onset, duration }: Note): Quarters => addQuarters(onset, duration);

const inTime = (notes: readonly Note[]): Note[] =>
  notes.toSorted((a, b) => compareQuarters(a.onset, b.onset));

function notesOf(score: Score, part: Part, event: RewriteEvent): Note[] {
  const { barIndex, offset } = toPosition(event.at);
  const bar = score.bars[barIndex];
  const length = readQuarters(event.lasts);
  if (!bar || !length) throw new RangeError(`No place for an event of bar index ${barIndex}`);
  const onset = addQuarters(bar.start, offset);
  const other = event.tremolo?.other ?? [];
  const make = (pitches: readonly RewritePitch[], at: Quarters, duration: Quarters, type: Tremolo["type"]) =>
    pitches.map((pitch, place) =>
      toNote(part, event, { pitch, place, onset: at, duration, tremolo: tremoloOf(event, type) }),
    );
  if (other.length === 0) return make(event.pitches, onset, length, "single");
  const half = scaleQuarters(length, 1, 2);
  return [
    ...make(event.pitches, onset, half, "start"),
    ...make(other, addQuarters(onset, half), half, "stop"),
  ];
}

const tremoloOf = ({ tremolo }: RewriteEvent, type: Tremolo["type"]): Tremolo | null =>
  tremolo && { type, marks: tremolo.strokes };

interface PitchToPlay {
  readonly pitch: RewritePitch;
  /** Among those of its chord. */
  readonly place: number;
  readonly onset: Quarters;
  readonly duration: Quarters;
  readonly tremolo: Tremolo | null;
}

function toNote(
  part: Part,
  event: RewriteEvent,
  { pitch, place, onset, duration, tremolo }: PitchToPlay,
): Note {
  const { barIndex, offset } = event.at;
  const { staff, voice, isRolled, isAccented } = event;
  return {
    id: `rewrite ${barIndex} ${offset} ${staff} ${voice} ${tremolo?.type ?? ""} ${midiNumber(pitch)}`,
    ...{ barIndex, onset, duration, staff, tremolo },
    written: pitch,
    sounding: soundingPitch(pitch, transpositionAt(part, onset)),
    voice: `${voice}`,
    isChordMember: place > 0,
    ...{ isGrace: false, isCue: false, isHidden: false },
    // A tremolo is struck again: it holds nothing.
    tieStart: tremolo === null && event.tied.includes(place),
    tieStop: false,
    articulations: isAccented ? ["accent"] : [],
    ornaments: [],
    hasFermata: false,
    isArpeggiated: isRolled,
    slurs: [],
    lyric: null,
  };
}

function transpositionAt({ transpositions }: Part, onset: Quarters) {
  const last = transpositions.findLast((change) => compareQuarters(change.onset, onset) <= 0);
  return last?.transposition ?? atPitch;
}
