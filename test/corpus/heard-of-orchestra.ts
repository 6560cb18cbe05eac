import { type BarEvent, endOf, isRest, midiOf, soundedBy } from "@/lib/rewrites/bar-event";
import type { Bar } from "@/lib/score/bar";
import type { Note } from "@/lib/score/note";
import { midiNumber } from "@/lib/score/pitch";
import { addQuarters, compareQuarters, type Quarters, subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

interface Tone {
  readonly midi: number;
  readonly from: Quarters;
  readonly to: Quarters;
  readonly isStruck: boolean;
}

/** What an orchestra plays in a bar, by offset in it. */
export interface OrchestraBar {
  readonly tones: readonly Tone[];
  readonly melody: readonly Tone[];
}

export interface Share {
  readonly kept: number;
  readonly of: number;
}

/** What of the orchestra somebody hears from the piano, whatever the octave. */
export interface Heard {
  /** Pitch classes, beat by beat. */
  readonly pitchClasses: Share;
  /** Notes of the melody, struck where the orchestra strikes them. */
  readonly melody: Share;
  /** The lowest note at the start of each beat. */
  readonly bass: Share;
}

const none: Share = { kept: 0, of: 0 };
export const nothingHeard: Heard = { pitchClasses: none, melody: none, bass: none };

const add = (a: Share, b: Share): Share => ({ kept: a.kept + b.kept, of: a.of + b.of });

export const addHeard = (a: Heard, b: Heard): Heard => ({
  pitchClasses: add(a.pitchClasses, b.pitchClasses),
  melody: add(a.melody, b.melody),
  bass: add(a.bass, b.bass),
});

/** @param melody a score of the melody alone, in the same bars; null for the highest notes of the orchestra. */
export function readOrchestraBar(full: Score, melody: Score | null, bar: Bar): OrchestraBar {
  const tones = tonesIn(full, bar);
  return { tones, melody: melody ? tonesIn(melody, bar).filter(({ isStruck }) => isStruck) : topLine(tones) };
}

function tonesIn(score: Score, bar: Bar): Tone[] {
  const isIn = (note: Note) =>
    note.barIndex === bar.index && note.duration.num > 0 && !note.isCue && !note.isHidden;
  return score.parts.flatMap(({ notes }) =>
    notes.filter(isIn).flatMap((note): Tone[] => {
      if (!note.sounding) return [];
      const from = subtractQuarters(note.onset, bar.start);
      const midi = Math.round(midiNumber(note.sounding));
      return [{ midi, from, to: addQuarters(from, note.duration), isStruck: !note.tieStop }];
    }),
  );
}

/** Notes over which nothing else sounds when they are struck. */
function topLine(tones: readonly Tone[]): Tone[] {
  return tones.filter(
    (tone) => tone.isStruck && !tones.some((other) => other.midi > tone.midi && soundsAt(other, tone.from)),
  );
}

const soundsAt = ({ from, to }: Pick<Tone, "from" | "to">, at: Quarters) =>
  compareQuarters(from, at) <= 0 && compareQuarters(at, to) < 0;

const classOf = (midi: number) => ((midi % 12) + 12) % 12;

/** @param beats where the beats begin. */
export function hearBar(
  { tones, melody }: OrchestraBar,
  events: readonly BarEvent[],
  beats: readonly Quarters[],
): Heard {
  const played = events
    .filter((event) => !isRest(event))
    .flatMap((event) =>
      soundedBy(event).map((pitch) => ({
        ...{ midi: midiOf(pitch), from: event.offset, to: endOf(event) },
        isTremolo: event.tremolo !== null,
      })),
    );
  const isStruck = ({ midi, from }: Tone) =>
    played.some(
      (key) =>
        classOf(key.midi) === classOf(midi) &&
        (compareQuarters(key.from, from) === 0 || (key.isTremolo && soundsAt(key, from))),
    );
  const lowestAt = (all: readonly Pick<Tone, "midi" | "from" | "to">[], at: Quarters) => {
    const keys = all.filter((key) => soundsAt(key, at)).map(({ midi }) => midi);
    return keys.length === 0 ? null : classOf(Math.min(...keys));
  };
  const basses = beats.filter((beat) => lowestAt(tones, beat) !== null);
  return {
    pitchClasses: beats
      .map((beat, index) => heardInBeat(tones, played, beat, beats[index + 1] ?? null))
      .reduce(add, none),
    melody: { kept: melody.filter(isStruck).length, of: melody.length },
    bass: {
      kept: basses.filter((beat) => lowestAt(tones, beat) === lowestAt(played, beat)).length,
      of: basses.length,
    },
  };
}

function heardInBeat(
  tones: readonly Pick<Tone, "midi" | "from" | "to">[],
  played: readonly Pick<Tone, "midi" | "from" | "to">[],
  from: Quarters,
  to: Quarters | null,
): Share {
  const classesIn = (all: readonly Pick<Tone, "midi" | "from" | "to">[]) =>
    new Set(
      all
        .filter(
          (tone) => compareQuarters(tone.to, from) > 0 && (to === null || compareQuarters(tone.from, to) < 0),
        )
        .map(({ midi }) => classOf(midi)),
    );
  const [wanted, heard] = [classesIn(tones), classesIn(played)];
  return { kept: [...wanted].filter((each) => heard.has(each)).length, of: wanted.size };
}
