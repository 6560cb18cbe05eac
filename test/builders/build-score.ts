import { type Bar, type BarJumps, type BarRepeats, type Metre, noJumps, plainRepeats } from "@/lib/score/bar";
import type { Direction } from "@/lib/score/direction";
import type { Note, Rest } from "@/lib/score/note";
import type { Part, PartRole } from "@/lib/score/part";
import type { Pitch } from "@/lib/score/pitch";
import type { Position } from "@/lib/score/position";
import {
  addQuarters,
  compareQuarters,
  laterOf,
  noQuarters,
  type Quarters,
  quarters,
  writeQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { TempoMark } from "@/lib/score/tempo-mark";
import { atPitch, soundingPitch, type Transposition } from "@/lib/score/transposition";
import { readNotation, type Token } from "./read-notation";

/**
 * A score in a line of text:
 *
 *     buildScore({ metre: "4/4", tempo: 60, solo: "c5:q d5:q e5:h | R | c5:w", piano: "c3:w | g3:w | c3:w" })
 *
 * Tokens stand between spaces.
 *
 * - `c5:q` a note: letter, accidentals (`c#5`, `eb4`), octave (middle C is `c4`), `:` and the note value: `w h q e s t`
 *   for whole to 32nd, dots (`h.`), `e3` for a triplet eighth, or a fraction of a quarter (`7/2`). Without `:` the value
 *   before it in the same part goes on.
 * - `c4+e4+g4:h` a chord · `c5:w~` tied to the next note of the same pitch.
 * - `r:q` a rest · `R` a rest of the whole bar · `R*12` twelve bars of rest.
 * - `c5:q(cue)` flags in parentheses, several with commas: `cue`, `grace` (takes no time), `hidden`, `fermata`, or any
 *   articulation (`staccato`). Rests take `cue`, `hidden` and `fermata`.
 * - `|` a bar line · `|:` and `:|` repeat signs, `:|x3` played three times, `:|:` both.
 * - `[1.` an ending begins, it stops at the next `:|` or at `]`; `[1,2.` for several.
 * - `$segno $coda $tocoda $ds $dc $fine` jump signs of their bar.
 * - `3/4` a new metre, `key=-3` a new key, at the start of a bar.
 * - `"poco rit."` words · `[B]` a rehearsal letter · `p`, `ff` dynamics · `<` `>` `/` hairpins and their end.
 * - `q=120`, `h.=60` a metronome mark · `sound=96` a tempo that only playback knows. Tempo words count as tempo marks.
 *
 * Bars, metres, keys and signs may stand in any one part. A part may be a list of lines, one for each staff. The
 * first bar may be short: it is then an upbeat with the label "0". Elsewhere all parts must fill a bar to the same
 * length; a length other than the metre's is an irregular bar.
 */
export interface ScoreText {
  readonly metre?: `${number}/${number}`;
  readonly key?: number;
  /** A metronome mark at the beginning, in quarters a minute. */
  readonly tempo?: number;
  readonly title?: string;
  readonly solo?: string;
  /** From written to sounding pitch. */
  readonly soloTransposition?: Transposition;
  readonly soloName?: string;
  /** One line, or one for each staff. */
  readonly piano?: string | readonly string[];
  /** Orchestra parts by name. */
  readonly orchestra?: Readonly<Record<string, string>>;
  /** Printed bar labels; by default the numbers from 1, or from 0 with an upbeat. */
  readonly labels?: readonly string[];
}

/** A position by bar index and offset in quarters: `at(4)`, `at(4, "3/2")`. */
export function at(barIndex: number, offset: string | number = 0): Position {
  const [num = "0", den = "1"] = `${offset}`.split("/");
  return { barIndex, offset: quarters(Number(num), Number(den)) };
}

interface Line {
  readonly part: number;
  readonly staff: number;
  readonly bars: readonly (readonly Token[])[];
}

/** One list of tokens for each bar; `R*3` becomes three bars. */
function splitBars(tokens: readonly Token[]): Token[][] {
  const bars: Token[][] = [[]];
  for (const token of tokens) {
    // Two bar lines beside each other are one: `:| |:`.
    if (token.kind === "bar-line" && bars.at(-1)?.length !== 0) bars.push([]);
    else if (token.kind === "bar-line") continue;
    else if (token.kind === "whole-bar-rest") {
      for (let time = 0; time < token.times; time += 1) {
        if (time > 0) bars.push([]);
        bars.at(-1)?.push({ ...token, times: 1 });
      }
    } else bars.at(-1)?.push(token);
  }
  // A bar line at either end of the text is no empty bar.
  if (bars.at(-1)?.length === 0) bars.pop();
  return bars;
}

const isGrace = (token: Token) => token.kind === "notes" && token.flags.includes("grace");

interface Timed {
  readonly token: Token;
  readonly offset: Quarters;
  readonly duration: Quarters;
}

/** Gives each token of a line its bar, offset and length; note values carry over from note to note. */
function timeLine(line: Line): Timed[][] {
  let value = quarters(1);
  return line.bars.map((tokens) => {
    let offset = noQuarters;
    return tokens.map((token) => {
      if (token.kind !== "notes" && token.kind !== "rest") return { token, offset, duration: noQuarters };
      value = token.duration ?? value;
      const timed = { token, offset, duration: isGrace(token) ? noQuarters : value };
      offset = addQuarters(offset, timed.duration);
      return timed;
    });
  });
}

function fillOf(bar: readonly Timed[]): Quarters {
  return bar.reduce((end, { offset, duration }) => laterOf(end, addQuarters(offset, duration)), noQuarters);
}

function readRepeats(tokens: readonly Token[], isInEnding: boolean): BarRepeats {
  const ending = tokens.flatMap((token) => (token.kind === "ending" ? [token.numbers] : []))[0] ?? null;
  const end = tokens.find((token) => token.kind === "repeat-end");
  const stops = (isInEnding || ending) && (end || tokens.some((token) => token.kind === "ending-stop"));
  return {
    startsRepeat: tokens.some((token) => token.kind === "repeat-start"),
    endsRepeatAfter: end?.kind === "repeat-end" ? end.times : null,
    startsEnding: ending,
    stopsEnding: stops ? (ending ?? []) : null,
  };
}

function readJumps(tokens: readonly Token[]): BarJumps {
  const texts = tokens.flatMap((token) => (token.kind === "jump" ? [token.text] : []));
  const mark = (name: string, pair: string) => (texts.includes(name) ? pair : null);
  return {
    segno: mark("segno", "segno"),
    coda: mark("coda", "coda"),
    toCoda: mark("tocoda", "coda"),
    dalSegno: mark("ds", "segno"),
    daCapo: texts.includes("dc"),
    fine: texts.includes("fine"),
  };
}

const metreOf = (beats: number, beatType: number): Metre => ({
  groups: [{ beats: [beats], beatType }],
  symbol: null,
});

function buildBars(text: ScoreText, lines: readonly Timed[][][]): Bar[] {
  const [beats = 4, beatType = 4] = (text.metre ?? "4/4").split("/").map(Number);
  let metreLength = quarters(beats * 4, beatType);
  let metre = metreOf(beats, beatType);
  let fifths = text.key ?? 0;
  let endingNumbers: number[] | null = null;
  let start = noQuarters;
  const count = Math.max(0, ...lines.map((bars) => bars.length));
  const bars: Bar[] = [];
  for (let index = 0; index < count; index += 1) {
    const timed = lines.map((line) => line[index] ?? []);
    const tokens = timed.flat().map(({ token }) => token);
    for (const token of tokens) {
      if (token.kind === "metre") {
        metre = metreOf(token.beats, token.beatType);
        metreLength = quarters(token.beats * 4, token.beatType);
      }
      if (token.kind === "key") fifths = token.fifths;
    }
    const length = lengthOf(timed, metreLength, index);
    const repeats = readRepeats(tokens, endingNumbers !== null);
    endingNumbers = repeats.startsEnding ? [...repeats.startsEnding] : endingNumbers;
    const stopsEnding = repeats.stopsEnding ? endingNumbers : null;
    if (stopsEnding) endingNumbers = null;
    const isPickup = index === 0 && compareQuarters(length, metreLength) < 0 && count > 1;
    bars.push({
      id: `b${index}`,
      index,
      label: "",
      start,
      length,
      metreLength,
      metre,
      key: { fifths, mode: null },
      isPickup,
      isIrregular: !isPickup && compareQuarters(length, metreLength) !== 0,
      repeats: { ...plainRepeats, ...repeats, stopsEnding },
      jumps: { ...noJumps, ...readJumps(tokens) },
    });
    start = addQuarters(start, length);
  }
  const first = bars[0]?.isPickup ? 0 : 1;
  return bars.map((bar) => ({ ...bar, label: text.labels?.[bar.index] ?? `${bar.index + first}` }));
}

/** The length that all filled lines agree on; the metre's when there are only whole-bar rests. */
function lengthOf(timed: readonly (readonly Timed[])[], metreLength: Quarters, index: number): Quarters {
  const fills = timed.map(fillOf).filter((fill) => fill.num > 0);
  const [fill = metreLength] = fills;
  const other = fills.find((length) => compareQuarters(length, fill) !== 0);
  if (other) {
    throw new RangeError(
      `Bar index ${index} is ${writeQuarters(fill)} and ${writeQuarters(other)} quarters long`,
    );
  }
  return fill;
}

const articulationOf = (flags: readonly string[]) =>
  flags.filter((flag) => !["cue", "grace", "hidden", "fermata"].includes(flag));

interface PartText {
  readonly id: string;
  readonly name: string;
  readonly role: PartRole;
  readonly soundId: string | null;
  readonly midiProgram: number | null;
  readonly transposition: Transposition;
  readonly staves: readonly string[];
}

function partTexts(text: ScoreText): PartText[] {
  const parts: Omit<PartText, "id">[] = [];
  const rest = { soundId: null, midiProgram: null, transposition: atPitch };
  if (text.solo !== undefined) {
    const transposition = text.soloTransposition ?? atPitch;
    parts.push({ ...rest, name: text.soloName ?? "Flute", role: "solo", transposition, staves: [text.solo] });
  }
  for (const [name, staff] of Object.entries(text.orchestra ?? {})) {
    parts.push({ ...rest, name, role: "orchestra", staves: [staff] });
  }
  if (text.piano !== undefined) {
    const staves = typeof text.piano === "string" ? [text.piano] : text.piano;
    parts.push({
      ...rest,
      name: "Piano",
      role: "reduction",
      soundId: "keyboard.piano",
      midiProgram: 1,
      staves,
    });
  }
  return parts.map((part, index) => ({ ...part, id: `P${index + 1}` }));
}

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

function buildPart(text: PartText, partIndex: number, bars: readonly Bar[], staves: readonly Timed[][][]) {
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

/** @throws RangeError where the text is no notation or the parts do not fit together. */
export function buildScore(text: ScoreText): Score {
  const texts = partTexts(text);
  const lines = texts.map(({ staves }, part) =>
    staves.map((staff, index) => timeLine({ part, staff: index + 1, bars: splitBars(readNotation(staff)) })),
  );
  const bars = buildBars(text, lines.flat());
  const parts = texts.map((part, index) => buildPart(part, index, bars, lines[index] ?? []));
  const opening: TempoMark[] =
    text.tempo === undefined
      ? []
      : [{ barIndex: 0, onset: noQuarters, words: null, quartersPerMinute: text.tempo, source: "metronome" }];
  const tempoMarks = [...opening, ...parts.flatMap((part) => part.tempoMarks)];
  return {
    title: text.title ?? null,
    movement: null,
    composer: null,
    bars,
    parts: parts.map(({ part }) => part),
    tempoMarks: tempoMarks.toSorted((a, b) => compareQuarters(a.onset, b.onset)),
  };
}
