import type { Bar } from "@/lib/score/bar";
import type { Note } from "@/lib/score/note";
import type { Pitch } from "@/lib/score/pitch";
import { type Quarters, scaleQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { soundingPitch, type Transposition } from "@/lib/score/transposition";

const raise = (pitch: Pitch | null, by: Transposition): Pitch | null => pitch && soundingPitch(pitch, by);

/** The same music a spelled interval higher, signatures too. */
export function transposeScore(score: Score, by: Transposition): Score {
  const fifths = 7 * by.chromatic - 12 * by.diatonic;
  const shift = (key: Bar["key"]) => ({ ...key, fifths: key.fifths === null ? null : key.fifths + fifths });
  return {
    ...score,
    bars: score.bars.map((bar) => ({ ...bar, key: shift(bar.key) })),
    parts: score.parts.map((part) => ({
      ...part,
      notes: part.notes.map((note) => ({
        ...note,
        written: raise(note.written, by),
        sounding: raise(note.sounding, by),
      })),
    })),
  };
}

const double = (length: Quarters): Quarters => scaleQuarters(length, 2);

function doubleTimed<T extends { readonly onset: Quarters }>(item: T): T {
  return { ...item, onset: double(item.onset) };
}

function doubleNote(note: Note): Note {
  return { ...doubleTimed(note), duration: double(note.duration) };
}

/** The same music in notes of twice the value: 4/4 becomes 4/2. */
export function doubleValues(score: Score): Score {
  return {
    ...score,
    bars: score.bars.map((bar) => ({
      ...bar,
      start: double(bar.start),
      length: double(bar.length),
      metreLength: double(bar.metreLength),
      metre: {
        ...bar.metre,
        groups: bar.metre.groups.map(({ beats, beatType }) => ({ beats, beatType: beatType / 2 })),
      },
    })),
    parts: score.parts.map((part) => ({
      ...part,
      notes: part.notes.map(doubleNote),
      rests: part.rests.map((rest) => ({ ...doubleTimed(rest), duration: double(rest.duration) })),
      directions: part.directions.map(doubleTimed),
    })),
    tempoMarks: score.tempoMarks.map(doubleTimed),
  };
}

/** The same music with other printed bar numbers and other ids of bars. */
export function renumberBars(score: Score): Score {
  const bars = score.bars.map((bar) => ({ ...bar, id: `other-${bar.id}`, label: `X${bar.index * 7}` }));
  return { ...score, bars };
}
