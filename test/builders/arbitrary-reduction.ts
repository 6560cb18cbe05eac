import type fc from "fast-check";
import type { Note, Rest, Tremolo } from "@/lib/score/note";
import type { Part } from "@/lib/score/part";
import type { Pitch, Step } from "@/lib/score/pitch";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  type Quarters,
  quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { buildScore } from "./build-score";
import { arbitraryChoices, type Choices } from "./choices";

/** Lengths of notes in a row: even, dotted, tuplets of 3, 5, 6 and 7. */
const figures: readonly (readonly Quarters[])[] = [
  [quarters(1)],
  [quarters(2)],
  [quarters(1, 2), quarters(1, 2)],
  [quarters(3, 4), quarters(1, 4)],
  [quarters(1, 4), quarters(1, 4), quarters(1, 4), quarters(1, 4)],
  Array.from({ length: 8 }, () => quarters(1, 8)),
  Array.from({ length: 3 }, () => quarters(1, 3)),
  Array.from({ length: 5 }, () => quarters(1, 5)),
  Array.from({ length: 6 }, () => quarters(1, 6)),
  Array.from({ length: 7 }, () => quarters(1, 7)),
  Array.from({ length: 3 }, () => quarters(2, 3)),
];

const metres = ["4/4", "3/4", "6/8", "2/2"] as const;
const steps: readonly (readonly [Step, number])[] = [
  ["C", 0],
  ["C", 1],
  ["D", 0],
  ["E", -1],
  ["E", 0],
  ["F", 0],
  ["F", 1],
  ["G", 0],
  ["A", -1],
  ["A", 0],
  ["B", -1],
  ["B", 0],
];
const pitchOf = (midi: number): Pitch => {
  const [step, alter] = steps[midi % 12] ?? ["C", 0];
  return { step, alter, octave: Math.floor(midi / 12) - 1 };
};

/** The lowest key of each staff's notes; they lie within two octaves and a half of it, so that staves overlap. */
const lowest = [55, 45, 34];

/**
 * Three bars of a piano part on one to three staves, with all that reductions are printed with: one or two voices a staff,
 * chords of up to six keys, tuplets, notes tied over the bar, repeated and alternating tremolos, grace notes, broken chords,
 * accents, cue-size and hidden notes, voices that begin late; and a soloist who doubles some of it.
 */
export const arbitraryReduction: fc.Arbitrary<Score> = arbitraryChoices.map(makeReduction);

function makeReduction(choices: Choices): Score {
  const metre = choices.pick(metres);
  const frame = buildScore({
    ...{
      metre,
      tempo: choices.pick([60, 96, 132]),
      solo: choices.pick(["R | R | R", "c5:q e5:e g5:e | R | R"]),
    },
    piano: "R | R | R",
  });
  const [solo, piano] = frame.parts as [Part, Part];
  const staffCount = 1 + choices.below(3);
  const maker = new ReductionMaker(choices, frame);
  for (let staff = 1; staff <= staffCount; staff += 1) {
    const voices = 1 + choices.below(2);
    for (let voice = 1; voice <= voices; voice += 1) maker.fill(staff, `${4 * (staff - 1) + voice}`);
  }
  const byOnset = <T extends { readonly onset: Quarters }>(list: readonly T[]) =>
    list.toSorted((a, b) => compareQuarters(a.onset, b.onset));
  const reduction = { ...piano, staffCount, notes: byOnset(maker.notes), rests: byOnset(maker.rests) };
  return { ...frame, parts: [solo, reduction] };
}

class ReductionMaker {
  readonly notes: Note[] = [];
  readonly rests: Rest[] = [];
  private held: readonly number[] = [];

  constructor(
    private readonly choices: Choices,
    private readonly score: Score,
  ) {}

  /** One voice through all bars; what it ties over the bar line is struck again. */
  fill(staff: number, voice: string): void {
    this.held = [];
    for (const bar of this.score.bars) {
      const end = addQuarters(bar.start, bar.length);
      let at = bar.start;
      while (compareQuarters(at, end) < 0) {
        for (const length of this.pickFigure(subtractQuarters(end, at))) {
          this.sound({ barIndex: bar.index, onset: at, duration: length, staff, voice });
          at = addQuarters(at, length);
        }
      }
    }
  }

  private pickFigure(left: Quarters): readonly Quarters[] {
    const figure = this.choices.pick(figures);
    return compareQuarters(figure.reduce(addQuarters), left) <= 0 ? figure : [left];
  }

  private sound(place: Pick<Note, "barIndex" | "onset" | "duration" | "staff" | "voice">): void {
    const { choices } = this;
    if (this.held.length === 0 && choices.oneIn(6)) {
      const plain = { isCue: false, isHidden: false, isWholeBar: false, hasFermata: false };
      this.rests.push({ id: `r${this.rests.length}`, ...place, ...plain });
      return;
    }
    if (choices.oneIn(10))
      this.add({ ...place, duration: noQuarters }, [this.key(place.staff)], { isGrace: true });
    const keys = this.held.length > 0 ? this.held : this.chord(place.staff);
    const tieStart = choices.oneIn(6);
    this.add(place, keys, {
      ...{ tieStart, tieStop: this.held.length > 0 },
      tremolo: tieStart || this.held.length > 0 ? null : this.tremolo(place.duration),
      isCue: choices.oneIn(25),
      isHidden: choices.oneIn(25),
      isArpeggiated: choices.oneIn(12),
      articulations: choices.oneIn(10) ? ["accent"] : [],
    });
    this.held = tieStart ? keys : [];
  }

  private key(staff: number): number {
    return (lowest[staff - 1] ?? 34) + this.choices.below(30);
  }

  /** Up to six keys, often the same as just before: from one key upwards in steps. */
  private chord(staff: number): number[] {
    const last = this.notes.at(-1);
    if (last && last.staff === staff && this.choices.oneIn(3)) {
      return this.notes
        .filter((note) => note.onset === last.onset && note.voice === last.voice && !note.isGrace)
        .map((note) => midiOf(note));
    }
    const keys = [this.key(staff)];
    for (let more = this.choices.pick([0, 0, 1, 1, 2, 3, 5]); more > 0; more -= 1)
      keys.push((keys.at(-1) ?? 0) + 1 + this.choices.below(9));
    return keys;
  }

  private tremolo(duration: Quarters): Tremolo | null {
    const { choices } = this;
    if (!choices.oneIn(8)) return null;
    const type = choices.pick(["single", "unmeasured", "start", "stop"] as const);
    const marks = 1 + choices.below(3);
    const isInTuplet = type === "single" && duration.den === 1 && choices.oneIn(2);
    return isInTuplet ? { type, marks, tuplet: { actual: 3, normal: 2 } } : { type, marks };
  }

  private add(
    place: Pick<Note, "barIndex" | "onset" | "duration" | "staff" | "voice">,
    keys: readonly number[],
    about: Partial<Note>,
  ): void {
    for (const [index, midi] of keys.entries()) {
      const pitch = pitchOf(midi);
      this.notes.push({
        id: `n${this.notes.length}`,
        ...place,
        ...{ written: pitch, sounding: pitch, isChordMember: index > 0, isGrace: false, isCue: false },
        ...{ isHidden: false, tieStart: false, tieStop: false, tremolo: null, articulations: [] },
        ...{ ornaments: [], hasFermata: false, isArpeggiated: false, slurs: [], lyric: null },
        ...about,
        // The sign stands on one note of the chord.
        ...(index > 0 ? { tremolo: null } : {}),
      });
    }
  }
}

const midiOf = ({ sounding }: Note): number => {
  const place = steps.findIndex(([step, alter]) => step === sounding?.step && alter === sounding.alter);
  return place + 12 * ((sounding?.octave ?? 4) + 1);
};
