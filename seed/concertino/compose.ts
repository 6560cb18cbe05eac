import { BAR, barRest, type Event, type Line, type Mark, QUARTER } from "./event";
import { readHarmony, type Segment } from "./harmony";
import { INSTRUMENT_IDS, type InstrumentId } from "./instruments";
import { SECTIONS } from "./movement";
import { type Orchestra, orchestrate, PLAYERS_LABELS } from "./orchestrate";
import type { Phrase, Section } from "./phrase";
import { hiddenGap, type Passage } from "./reduction";

/** Something printed above the system at a tick of a bar. */
export interface PlacedWords {
  readonly tick: number;
  readonly words: string;
}

/** What holds for a bar in every part. */
export interface BarPlan {
  /** Printed number; the upbeat is bar 0. */
  readonly label: string;
  readonly ticks: number;
  readonly fifths: number;
  readonly mode: "major" | "minor";
  readonly letter: string | undefined;
  readonly tempo: { readonly words: string; readonly quartersPerMinute: number } | undefined;
  readonly words: readonly PlacedWords[];
  readonly repeat: "start" | "end" | undefined;
  readonly ending: 1 | 2 | undefined;
  readonly closes: "light-light" | "light-heavy" | undefined;
}

/** A dynamic or hairpin of the whole orchestra, placed in the movement. */
export interface PlacedDynamic {
  readonly bar: number;
  readonly tick: number;
  readonly sign:
    | { readonly kind: "level"; readonly text: string }
    | { readonly kind: "hairpin"; readonly type: "crescendo" | "diminuendo" | "stop" };
}

/** One hand of the piano: its first voice, and a second one in the bars that have it. */
export interface Hand {
  readonly first: Line;
  readonly second: readonly (readonly Event[] | undefined)[];
}

/** The movement: bars, orchestra with soloist, and the piano reduction of the orchestra. */
export interface Composition {
  readonly bars: readonly BarPlan[];
  readonly orchestra: Orchestra;
  readonly right: Hand;
  readonly left: Hand;
  readonly dynamics: readonly PlacedDynamic[];
  /** Bars in which a bass-clef instrument reads the tenor clef. */
  readonly tenorClef: Partial<Record<InstrumentId, readonly number[]>>;
  /** The harmony plan, bars counted from the start of the movement. */
  readonly harmony: readonly Segment[];
}

let composed: Composition | undefined;

/** Composes the movement: writes every phrase out for the orchestra and reduces it for the piano. Same each time. */
export function compose(): Composition {
  composed ??= composeSections(SECTIONS);
  return composed;
}

function composeSections(sections: readonly Section[]): Composition {
  const phrases = sections.flatMap((section) => section.phrases);
  const starts = startsOf(phrases);
  const orchestra = joinOrchestra(phrases.map(orchestrate));
  const reduce = (hand: "right" | "left"): Hand => ({
    first: phrases.flatMap((phrase, i) => reducePhrase(phrase, phrase[hand], starts[i] ?? 0, orchestra)),
    second: phrases.flatMap((phrase, i) => secondVoice(phrase, phrase[hand], starts[i] ?? 0, orchestra)),
  });
  return {
    bars: planBars(sections),
    orchestra,
    right: reduce("right"),
    left: reduce("left"),
    dynamics: phrases.flatMap((phrase, i) => placeDynamics(phrase.dynamics ?? "", starts[i] ?? 0)),
    tenorClef: tenorClefs(phrases, starts),
    harmony: phrases.flatMap((phrase, i) => placeHarmony(phrase, starts[i] ?? 0)),
  };
}

function startsOf(phrases: readonly Phrase[]): number[] {
  let bar = 0;
  return phrases.map((phrase) => {
    const start = bar;
    bar += phrase.bars;
    return start;
  });
}

function joinOrchestra(pieces: readonly Orchestra[]): Orchestra {
  const entries = INSTRUMENT_IDS.map((id): [InstrumentId, Line] => [
    id,
    withoutRepeatedLabels(pieces.flatMap((piece) => piece[id])),
  ]);
  return Object.fromEntries(entries) as Record<InstrumentId, Line>;
}

function tenorClefs(phrases: readonly Phrase[], starts: readonly number[]): Composition["tenorClef"] {
  const found: Partial<Record<InstrumentId, number[]>> = {};
  phrases.forEach((phrase, i) => {
    const bars = Array.from({ length: phrase.bars }, (_, bar) => (starts[i] ?? 0) + bar);
    for (const id of phrase.tenorClef ?? []) found[id] = [...(found[id] ?? []), ...bars];
  });
  return found;
}

function placeHarmony({ harmony }: Phrase, start: number): Segment[] {
  if (harmony === "") return [];
  return readHarmony(harmony).map((segment) => ({ ...segment, bar: segment.bar + start }));
}

/** A pair of winds prints "a 2" or "1." once, until it divides or changes. */
function withoutRepeatedLabels(line: Line): Line {
  let current: string | undefined;
  return line.map((bar) =>
    bar.map((event) => {
      if (event.pitches.length > 1) current = undefined;
      const label = event.marks.find(isPlayersLabel);
      if (label?.kind !== "words") return event;
      const isRepeated = label.text === current;
      current = label.text;
      return isRepeated ? { ...event, marks: event.marks.filter((mark) => mark !== label) } : event;
    }),
  );
}

function isPlayersLabel(mark: Mark): boolean {
  return mark.kind === "words" && PLAYERS_LABELS.includes(mark.text);
}

function reducePhrase(
  phrase: Phrase,
  passages: readonly Passage[],
  start: number,
  orchestra: Orchestra,
): Line {
  return barsOf(phrase, passages, 1, start, orchestra).map((bar) => {
    const events = bar ?? [];
    const isSilent = events.every((event) => event.pitches.length === 0 && !event.fermata);
    return isSilent ? [barRest(phrase.barTicks ?? BAR)] : events;
  });
}

function secondVoice(
  phrase: Phrase,
  passages: readonly Passage[],
  start: number,
  orchestra: Orchestra,
): (readonly Event[] | undefined)[] {
  return barsOf(phrase, passages, 2, start, orchestra).map((bar) =>
    bar?.map((event) => (event.pitches.length === 0 ? hiddenGap(event.ticks) : event)),
  );
}

function barsOf(
  phrase: Phrase,
  passages: readonly Passage[],
  voice: 1 | 2,
  start: number,
  orchestra: Orchestra,
): (readonly Event[] | undefined)[] {
  return Array.from({ length: phrase.bars }, (_, i) => {
    const passage = passages.find(({ bars: [from, to] = [1, phrase.bars], voice: own = 1 }) => {
      return own === voice && i + 1 >= from && i + 1 <= to;
    });
    const passageBar = i + 1 - (passage?.bars?.[0] ?? 1);
    return passage?.play({ orchestra, bar: start + i, passageBar, barTicks: phrase.barTicks ?? BAR });
  });
}

function planBars(sections: readonly Section[]): BarPlan[] {
  const plans: BarPlan[] = [];
  for (const section of sections) {
    const ticks = section.phrases.flatMap((phrase) =>
      Array.from({ length: phrase.bars }, () => phrase.barTicks ?? BAR),
    );
    const upbeats = ticks.filter((length) => length < BAR).length;
    ticks.forEach((length, i) => {
      plans.push(planBar(section, i, i + 1 - upbeats, length, String(plans.length), ticks.length));
    });
  }
  return plans;
}

/** @param bar counted from 1 in the section, an upbeat from 0. */
function planBar(
  section: Section,
  index: number,
  bar: number,
  ticks: number,
  label: string,
  count: number,
): BarPlan {
  const { repeat } = section;
  return {
    label,
    ticks,
    fifths: section.fifths,
    mode: section.mode,
    letter: bar === 1 ? section.letter : undefined,
    tempo: index === 0 ? section.tempo : undefined,
    words: (section.words ?? [])
      .filter((words) => words.bar === bar)
      .map(({ beat, words }) => ({ tick: (beat - 1) * QUARTER, words })),
    repeat: repeat?.from === bar ? "start" : repeat?.firstEnding === bar ? "end" : undefined,
    ending: repeat?.firstEnding === bar ? 1 : repeat?.secondEnding === bar ? 2 : undefined,
    closes: index === count - 1 ? section.closes : undefined,
  };
}

const LEVEL = /^\s*(\d+)(?:\.(\d))?\s+(p{1,3}|m[pf]|f{1,3}|fp|sf)\s*$/;
const HAIRPIN = /^\s*(\d+)\.(\d)\s*([<>])\s*(\d+)\.(\d)\s*$/;

/** Reads a dynamics plan such as `1 p; 3.1<4.4; 5 f` (bars of the phrase from 1, beats). */
function placeDynamics(plan: string, start: number): PlacedDynamic[] {
  return plan
    .split(";")
    .filter((item) => item.trim() !== "")
    .flatMap((item): PlacedDynamic[] => {
      const at = (bar: string | undefined, beat: string | undefined) => ({
        bar: start + Number(bar) - 1,
        tick: (Number(beat ?? 1) - 1) * QUARTER,
      });
      const level = LEVEL.exec(item);
      if (level) return [{ ...at(level[1], level[2]), sign: { kind: "level", text: level[3] ?? "" } }];
      const hairpin = HAIRPIN.exec(item);
      if (!hairpin) throw new RangeError(`Not a dynamic: "${item}"`);
      const type = hairpin[3] === "<" ? "crescendo" : "diminuendo";
      return [
        { ...at(hairpin[1], hairpin[2]), sign: { kind: "hairpin", type } },
        { ...at(hairpin[4], hairpin[5]), sign: { kind: "hairpin", type: "stop" } },
      ];
    });
}
