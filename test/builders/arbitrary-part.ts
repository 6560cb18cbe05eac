import { findNoteValue } from "@/lib/musicxml/note-type";
import type { Bar, KeySignature } from "@/lib/score/bar";
import type { Direction } from "@/lib/score/direction";
import type { Note, Rest, Tremolo } from "@/lib/score/note";
import type { ClefChange, KeyChange, Part } from "@/lib/score/part";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  type Quarters,
  quarters,
  scaleQuarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import { soundingPitch, type Transposition } from "@/lib/score/transposition";
import type { Choices } from "./choices";

export interface PlannedPart {
  readonly partIndex: number;
  readonly bars: readonly Bar[];
  /** Sounding keys by the bar that they start with. */
  readonly keys: ReadonlyMap<number, KeySignature>;
}

/** Written key minus sounding key, in fifths, beside each transposition. */
const transpositions: readonly { readonly by: Transposition | null; readonly fifths: number }[] = [
  { by: null, fifths: 0 },
  { by: { diatonic: -1, chromatic: -2, octaveChange: 0 }, fifths: 2 },
  { by: { diatonic: -5, chromatic: -9, octaveChange: 0 }, fifths: 3 },
  { by: { diatonic: -4, chromatic: -7, octaveChange: 0 }, fifths: 1 },
  { by: { diatonic: 0, chromatic: 0, octaveChange: 1 }, fifths: 0 },
  { by: { diatonic: -1, chromatic: -2, octaveChange: -1 }, fifths: 2 },
];

/** A part without its role. */
export function makePart(choices: Choices, { partIndex, bars, keys }: PlannedPart): Part {
  const { by, fifths } = choices.pick(transpositions);
  const staffCount = 1 + choices.below(2);
  const maker = new BarMaker(choices, partIndex, staffCount, by);
  const made = bars.map((bar) => maker.make(bar));
  return {
    id: `P${partIndex + 1}`,
    name: choices.pick(["Flute", "Piano", "Solo <b>Violin</b>", "Klarinette in B & A"]),
    abbreviation: choices.pick([null, "Fl."]),
    soundId: choices.pick([null, "keyboard.piano", "wind.flutes.flute"]),
    midiProgram: choices.pick([null, 1, 128]),
    role: "other",
    staffCount,
    notes: made.flatMap(({ notes }) => byOnset(notes)),
    rests: made.flatMap(({ rests }) => byOnset(rests)),
    directions: made.flatMap(({ directions }) => byOnset(directions)),
    clefs: made.flatMap(({ clefs }) => byOnset(clefs)),
    keys: [...keys].map(([barIndex, key]): KeyChange => {
      const onset = bars[barIndex]?.start ?? noQuarters;
      const written = key.fifths === null ? null : key.fifths + fifths;
      return { onset, barIndex, staff: null, fifths: written, mode: key.mode };
    }),
    transpositions: by === null ? [] : [{ onset: noQuarters, barIndex: 0, transposition: by }],
  };
}

function byOnset<T extends { readonly onset: Quarters }>(list: readonly T[]): T[] {
  return list.toSorted((a, b) => compareQuarters(a.onset, b.onset));
}

/** Lengths of notes in a row: single notes, pairs, triplets, quintuplets, septuplets, dotted figures. */
const figures: readonly (readonly Quarters[])[] = [
  [quarters(1)],
  [quarters(1, 2), quarters(1, 2)],
  [quarters(2)],
  [quarters(1, 3), quarters(1, 3), quarters(1, 3)],
  [quarters(3, 4), quarters(1, 4)],
  [quarters(1, 5), quarters(2, 5), quarters(2, 5)],
  [quarters(2, 7), quarters(2, 7), quarters(3, 7)],
  [quarters(1, 6), quarters(1, 3), quarters(1, 64)],
];

class BarMaker {
  private notes: Note[] = [];
  private rests: Rest[] = [];
  private count = 0;

  constructor(
    private readonly choices: Choices,
    private readonly partIndex: number,
    private readonly staffCount: number,
    private readonly by: Transposition | null,
  ) {}

  make(bar: Bar) {
    this.notes = [];
    this.rests = [];
    const voices = this.choices.below(4);
    for (let voice = 1; voice <= voices; voice += 1) this.fillVoice(bar, `${voice}`);
    return {
      notes: this.notes,
      rests: this.rests,
      directions: this.choices.upTo(3, () => this.makeDirection(bar)),
      clefs: this.choices.upTo(1, () => this.makeClef(bar)),
    };
  }

  private get id(): string {
    this.count += 1;
    return `n${this.partIndex}-${this.count}`;
  }

  private get staff(): number {
    return 1 + this.choices.below(this.staffCount);
  }

  /** The whole bar, its rest, or a stretch that may start late and end early. */
  private fillVoice(bar: Bar, voice: string): void {
    if (this.choices.oneIn(5)) {
      this.addRest(bar, voice, noQuarters, bar.length, true);
      return;
    }
    let at = this.choices.oneIn(5) ? scaleQuarters(bar.length, 1, 2) : noQuarters;
    const end = this.choices.oneIn(6) ? scaleQuarters(bar.length, 3, 4) : bar.length;
    while (compareQuarters(at, end) < 0) {
      for (const length of this.pickFigure(subtractQuarters(end, at))) {
        this.addSound(bar, voice, at, length);
        at = addQuarters(at, length);
      }
    }
    if (this.choices.oneIn(6))
      this.addNote(bar, voice, at, noQuarters, { isGrace: true, isChordMember: false });
  }

  private pickFigure(left: Quarters): readonly Quarters[] {
    const figure = this.choices.pick(figures);
    return compareQuarters(figure.reduce(addQuarters), left) <= 0 ? figure : [left];
  }

  private addSound(bar: Bar, voice: string, offset: Quarters, length: Quarters): void {
    if (this.choices.oneIn(6)) {
      this.addRest(bar, voice, offset, length, false);
      return;
    }
    const graces = this.choices.oneIn(6) ? 1 + this.choices.below(2) : 0;
    for (let grace = 0; grace < graces; grace += 1) {
      this.addNote(bar, voice, offset, noQuarters, { isGrace: true, isChordMember: false });
    }
    const chord = this.choices.oneIn(4) ? 3 : 1;
    for (let member = 0; member < chord; member += 1) {
      this.addNote(bar, voice, offset, length, { isGrace: false, isChordMember: member > 0 });
    }
  }

  private addRest(bar: Bar, voice: string, offset: Quarters, duration: Quarters, isWholeBar: boolean): void {
    this.rests.push({
      id: this.id,
      barIndex: bar.index,
      onset: addQuarters(bar.start, offset),
      duration,
      voice,
      staff: this.staff,
      isCue: this.choices.oneIn(8),
      isHidden: this.choices.oneIn(8),
      isWholeBar,
      hasFermata: this.choices.oneIn(8),
    });
  }

  private addNote(
    bar: Bar,
    voice: string,
    offset: Quarters,
    duration: Quarters,
    role: { readonly isGrace: boolean; readonly isChordMember: boolean },
  ): void {
    const { choices } = this;
    const written = choices.oneIn(12)
      ? null
      : {
          step: choices.pick(["C", "D", "E", "F", "G", "A", "B"] as const),
          alter: choices.pick([0, 1, -1, 2, -0.5]),
          octave: choices.pick([4, 5, 3, 0, 9]),
        };
    this.notes.push({
      id: this.id,
      barIndex: bar.index,
      onset: addQuarters(bar.start, offset),
      duration,
      written,
      sounding: written && this.by ? soundingPitch(written, this.by) : written,
      voice,
      staff: this.staff,
      ...role,
      isCue: choices.oneIn(10),
      isHidden: choices.oneIn(12),
      tieStart: choices.oneIn(6),
      tieStop: choices.oneIn(6),
      tremolo: choices.oneIn(12) ? this.makeTremolo(duration) : null,
      articulations: choices.pick([[], [], [], ["staccato"], ["accent", "breath-mark"], ["caesura"]]),
      ornaments: choices.pick([[], [], [], ["trill-mark"], ["turn", "wavy-line"]]),
      hasFermata: choices.oneIn(10),
      isArpeggiated: choices.oneIn(10),
      slurs: choices.upTo(2, () => ({
        number: 1 + choices.below(16),
        type: choices.pick(["start", "stop", "continue"] as const),
      })),
      lyric: choices.oneIn(10) ? choices.pick(["la", "<i>Ah!</i>", "d’a & ‿"]) : null,
    });
  }

  /** A repeated note in a tuplet says so, as its length is written in one, or as a longer value struck in triplets. */
  private makeTremolo(duration: Quarters): Tremolo {
    const { choices } = this;
    const type = choices.pick(["single", "start", "stop", "unmeasured"] as const);
    const tremolo = { type, marks: choices.below(9) };
    if (type === "start" || type === "stop" || duration.num === 0) return tremolo;
    const value = findNoteValue(duration);
    const longer = findNoteValue(scaleQuarters(duration, 3, 2));
    const isStruckInTriplets = longer?.actual === 1 && choices.oneIn(2);
    if (isStruckInTriplets) return { ...tremolo, tuplet: { actual: 3, normal: 2 } };
    if (value === null || value.actual === value.normal) return tremolo;
    return { ...tremolo, tuplet: { actual: value.actual, normal: value.normal } };
  }

  private makeDirection(bar: Bar): Direction {
    const { choices, staff } = this;
    const placed = { barIndex: bar.index, onset: this.somewhere(bar), staff };
    const number = 1 + choices.below(3);
    const kinds: readonly Direction[] = [
      { ...placed, kind: "dynamic", mark: choices.pick(["p", "sfz", "più f <"]) },
      {
        ...placed,
        kind: "wedge",
        type: choices.pick(["crescendo", "diminuendo", "stop", "continue"]),
        number,
      },
      { ...placed, kind: "words", text: choices.pick(["dolce", "arco & <b>sul G</b>"]) },
      { ...placed, kind: "rehearsal", text: choices.pick(["A", "<1>"]) },
      {
        ...placed,
        kind: "octave-shift",
        type: choices.pick(["up", "down", "stop", "continue"]),
        size: 15,
        number,
      },
      { ...placed, kind: "pedal", type: choices.pick(["start", "stop"]) },
    ];
    return choices.pick(kinds);
  }

  private makeClef(bar: Bar): ClefChange {
    const [sign, line] = this.choices.pick([
      ["G", 2],
      ["F", 4],
      ["C", 3],
      ["percussion", null],
    ] as const);
    const octaveChange = this.choices.pick([0, -1, 1]);
    return { onset: this.somewhere(bar), barIndex: bar.index, staff: this.staff, sign, line, octaveChange };
  }

  /** The start, the end or a third of the bar. */
  private somewhere(bar: Bar): Quarters {
    return addQuarters(bar.start, scaleQuarters(bar.length, this.choices.pick([0, 1, 2, 3]), 3));
  }
}
