import type { Bar } from "@/lib/score/bar";
import type { Direction } from "@/lib/score/direction";
import type { Note, Rest } from "@/lib/score/note";
import type { Part, PartRole } from "@/lib/score/part";
import type { Pitch } from "@/lib/score/pitch";
import { addQuarters, compareQuarters, noQuarters, type Quarters } from "@/lib/score/quarters";
import type { TempoMark } from "@/lib/score/tempo-mark";
import { atPitch, soundingPitch, type Transposition } from "@/lib/score/transposition";
import type { Token } from "./read-notation";
import type { Timed } from "./time-line";

export interface PartText {
  readonly id: string;
  readonly name: string;
  readonly role: PartRole;
  readonly soundId: string | null;
  readonly midiProgram: number | null;
  readonly transposition: Transposition;
  readonly staves: readonly string[];
}

const articulationOf = (flags: readonly string[]) =>
  flags.filter((flag) => !["cue", "grace", "hidden", "fermata", "rolled"].includes(flag));

/** Reads the notes of one staff; ties look back at the note before on the same pitch. */
class StaffReader {
  readonly notes: Note[] = [];
  readonly rests: Rest[] = [];
  readonly directions: Direction[] = [];
  readonly tempoMarks: TempoMark[] = [];
  private tied: readonly Pitch[] = [];

  constructor(
    private readonly part: PartText,
    private readonly staff: number,
    private readonly bar: (index: number) => Bar,
    private readonly nextId: (barIndex: number) => string,
  ) {}

  read(bars: readonly (readonly Timed[])[]): void {
    bars.forEach((timed, barIndex) => {
      for (const one of timed) this.readToken(one, this.bar(barIndex));
    });
  }

  private readToken({ token, offset, duration }: Timed, bar: Bar): void {
    const onset = addQuarters(bar.start, offset);
    const place = { barIndex: bar.index, onset, staff: this.staff };
    if (token.kind === "notes") this.readNotes(token, place, duration);
    else if (token.kind === "rest") this.readRest(token.flags, { ...place, duration, isWholeBar: false });
    else if (token.kind === "whole-bar-rest") {
      this.readRest(token.flags, { ...place, duration: bar.length, isWholeBar: true });
    } else this.readDirection(token, place);
  }

  private readNotes(
    token: Extract<Token, { kind: "notes" }>,
    place: { barIndex: number; onset: Quarters; staff: number },
    duration: Quarters,
  ): void {
    const { flags, pitches, isTied } = token;
    pitches.forEach((written, index) => {
      const isHeld = (pitch: Pitch) => JSON.stringify(pitch) === JSON.stringify(written);
      this.notes.push({
        id: this.nextId(place.barIndex),
        ...place,
        duration,
        written,
        sounding: soundingPitch(written, this.part.transposition),
        voice: `${this.staff}`,
        isChordMember: index > 0,
        isGrace: flags.includes("grace"),
        isCue: flags.includes("cue"),
        isHidden: flags.includes("hidden"),
        tieStart: isTied,
        tieStop: this.tied.some(isHeld),
        tremolo: null,
        articulations: articulationOf(flags),
        ornaments: [],
        hasFermata: flags.includes("fermata"),
        isArpeggiated: flags.includes("rolled"),
        slurs: [],
        lyric: null,
      });
    });
    this.tied = isTied ? pitches : [];
  }

  private readRest(
    flags: readonly string[],
    place: { barIndex: number; onset: Quarters; staff: number; duration: Quarters; isWholeBar: boolean },
  ): void {
    this.tied = [];
    this.rests.push({
      id: this.nextId(place.barIndex),
      ...place,
      voice: `${this.staff}`,
      isCue: flags.includes("cue"),
      isHidden: flags.includes("hidden"),
      hasFermata: flags.includes("fermata"),
    });
  }

  private readDirection(token: Token, place: { barIndex: number; onset: Quarters; staff: number }): void {
    if (token.kind === "words" || token.kind === "rehearsal") {
      this.directions.push({ kind: token.kind, ...place, text: token.text });
    } else if (token.kind === "dynamic")
      this.directions.push({ kind: "dynamic", ...place, mark: token.text });
    else if (token.kind === "wedge") {
      const types = { "<": "crescendo", ">": "diminuendo", "/": "stop" } as const;
      const type = types[token.text as keyof typeof types];
      this.directions.push({ kind: "wedge", ...place, type, number: 1 });
    } else if (token.kind === "tempo") {
      const { source, quartersPerMinute } = token;
      this.tempoMarks.push({
        barIndex: place.barIndex,
        onset: place.onset,
        words: null,
        quartersPerMinute,
        source,
      });
    }
  }
}

/** One part from its timed staves, and the tempo marks that stand in it. */
export function buildPart(
  text: PartText,
  partIndex: number,
  bars: readonly Bar[],
  staves: readonly Timed[][][],
) {
  const ordinals = new Map<number, number>();
  const nextId = (barIndex: number) => {
    const ordinal = ordinals.get(barIndex) ?? 0;
    ordinals.set(barIndex, ordinal + 1);
    return `n${partIndex}-${barIndex}-${ordinal}`;
  };
  const barAt = (index: number) => {
    const bar = bars[index];
    if (!bar) throw new RangeError(`No bar with index ${index}`);
    return bar;
  };
  const readers = staves.map((staff, index) => {
    const reader = new StaffReader(text, index + 1, barAt, nextId);
    reader.read(staff);
    return reader;
  });
  const byOnset = <T extends { onset: Quarters }>(list: T[]) =>
    list.toSorted((a, b) => compareQuarters(a.onset, b.onset));
  const place = { onset: noQuarters, barIndex: 0 };
  const part: Part = {
    id: text.id,
    name: text.name,
    abbreviation: null,
    soundId: text.soundId,
    midiProgram: text.midiProgram,
    role: text.role,
    staffCount: staves.length,
    notes: byOnset(readers.flatMap((reader) => reader.notes)),
    rests: byOnset(readers.flatMap((reader) => reader.rests)),
    directions: byOnset(readers.flatMap((reader) => reader.directions)),
    clefs: staves.map((_staff, index) => {
      const clef = index === 0 ? { sign: "G", line: 2 } : { sign: "F", line: 4 };
      return { ...place, staff: index + 1, ...clef, octaveChange: 0 };
    }),
    keys: [{ ...place, staff: null, fifths: bars[0]?.key.fifths ?? 0, mode: null }],
    transpositions: text.transposition === atPitch ? [] : [{ ...place, transposition: text.transposition }],
  };
  return { part, tempoMarks: readers.flatMap((reader) => reader.tempoMarks) };
}
