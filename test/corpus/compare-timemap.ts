import type { Note, Rest } from "@/lib/score/note";
import type { PerformedBar, PerformedOrder } from "@/lib/score/performed-order";
import {
  isEqualQuarters,
  noQuarters,
  type Quarters,
  quarters,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { readTempoMap, type TempoMap } from "@/lib/score/tempo-map";
import type { TempoMark } from "@/lib/score/tempo-mark";
import { readTimeline } from "@/lib/score/timeline";
import type { TimemapEvent } from "./engraver-timemap";

/** In what our reading of a source and the engraver's differ. */
export type DifferenceKind =
  | "order"
  | "bar-start"
  | "seconds"
  /** Clock times with each bar's last tempo moved to its start, which is how the engraver counts. */
  | "seconds-by-bar"
  | "onset"
  | "duration"
  | "missing-there"
  | "missing-here";

interface Found {
  readonly what: DifferenceKind;
  readonly barLabel: string;
  readonly detail: string;
}

/** All differences of one kind in one file: how many, and the first of them. */
export interface DifferenceSummary {
  readonly what: DifferenceKind;
  readonly count: number;
  /** "bar 12, n1-11-3: 7/2 here, 4 there". */
  readonly first: string;
}

/** Milliseconds by which times may differ: the engraver's are whole ones. */
const tolerance = 1;

interface BarThere {
  readonly id: string;
  readonly pass: number;
  readonly start: Quarters;
  readonly milliseconds: number;
}

/** The engraver marks what sounds again by a suffix: "b4-rend2" is the second time of bar b4. */
function splitRound(id: string): { id: string; pass: number } {
  const match = /^(.*)-rend(\d+)$/.exec(id);
  return match ? { id: match[1] ?? "", pass: Number(match[2]) } : { id, pass: 1 };
}
const joinRound = (id: string, pass: number): string => (pass === 1 ? id : `${id}-rend${pass}`);

const toQuarters = ({ qfrac: [num, den] }: TimemapEvent): Quarters => quarters(num, den);

function barsThere(timemap: readonly TimemapEvent[]): BarThere[] {
  return timemap.flatMap((event) => {
    if (event.measureOn === undefined) return [];
    return [{ ...splitRound(event.measureOn), start: toQuarters(event), milliseconds: event.tstamp }];
  });
}

/** When each note and rest begins and ends, by its id with the suffix of its round. */
function soundsThere(timemap: readonly TimemapEvent[]): Map<string, { on: Quarters; off: Quarters }> {
  const sounds = new Map<string, { on: Quarters; off: Quarters }>();
  for (const event of timemap) {
    const now = toQuarters(event);
    for (const id of [...(event.on ?? []), ...(event.restsOn ?? [])]) sounds.set(id, { on: now, off: now });
    for (const id of [...(event.off ?? []), ...(event.restsOff ?? [])]) {
      const sound = sounds.get(id);
      if (sound) sounds.set(id, { ...sound, off: now });
    }
  }
  return sounds;
}

interface Compared {
  readonly score: Score;
  readonly order: PerformedOrder;
  readonly timemap: readonly TimemapEvent[];
}

const labelOf = (score: Score, bar: PerformedBar | undefined): string =>
  score.bars[bar?.barIndex ?? -1]?.label ?? "end";

/** Only the first is told: what follows it follows from it. */
function compareOrder({ score, order, timemap }: Compared): Found[] {
  const here = order.bars.map(({ barIndex }) => score.bars[barIndex]?.id);
  const there = barsThere(timemap).map(({ id }) => id);
  const count = Math.max(here.length, there.length);
  const at = Array.from({ length: count }, (_, index) => index).find((index) => here[index] !== there[index]);
  if (at === undefined) return [];
  const detail = `${here[at] ?? "nothing"} here, ${there[at] ?? "nothing"} there`;
  return [{ what: "order", barLabel: labelOf(score, order.bars[at]), detail }];
}

/** Starts of bars and the end of the piece, as far as both play the same bars. */
function compareStarts({ score, order, timemap }: Compared): Found[] {
  const there = barsThere(timemap);
  const last = timemap.at(-1);
  const here = [...order.bars, undefined];
  return here.flatMap((bar, index): Found[] => {
    const start = bar ? there[index]?.start : last && toQuarters(last);
    const ours = bar?.start ?? order.length;
    if (start === undefined || isEqualQuarters(ours, start)) return [];
    const detail = `${writeQuarters(ours)} here, ${writeQuarters(start)} there`;
    return [{ what: "bar-start", barLabel: labelOf(score, bar), detail }];
  });
}

/** Numbers only, as the engraver counts time: no words, no allowances, 120 where nothing is given. */
function mapByNumbers(score: Score, marks: readonly TempoMark[]): { plain: Score; map: TempoMap } {
  const tempoMarks = marks.flatMap((mark) =>
    mark.quartersPerMinute === null ? [] : [{ ...mark, words: null }],
  );
  const parts = score.parts.map((part) => ({ ...part, directions: [] }));
  const plain = { ...score, title: null, movement: null, tempoMarks, parts };
  const isGivenAtStart = tempoMarks.some(({ onset }) => onset.num === 0);
  const start = { at: { barIndex: 0, offset: noQuarters }, quartersPerMinute: 120 };
  const tempi = isGivenAtStart ? [] : [start];
  return { plain, map: readTempoMap(plain, { ritardandoTo: 1, fermataFactor: 1, tempi }) };
}

/** The last number of each bar, at the start of the bar. */
function moveToBarStarts(score: Score): TempoMark[] {
  const byBar = new Map<number, TempoMark>();
  for (const mark of score.tempoMarks) {
    const onset = score.bars[mark.barIndex]?.start;
    if (onset && mark.quartersPerMinute !== null) byBar.set(mark.barIndex, { ...mark, onset });
  }
  return [...byBar.values()];
}

function compareSeconds(
  { score, order, timemap }: Compared,
  what: "seconds" | "seconds-by-bar",
  marks: readonly TempoMark[],
): Found[] {
  const { plain, map } = mapByNumbers(score, marks);
  const timeline = readTimeline(plain, order, map);
  const there = [...barsThere(timemap).map(({ milliseconds }) => milliseconds), timemap.at(-1)?.tstamp ?? 0];
  const here = [...timeline.bars.map(({ startSeconds }) => startSeconds), timeline.totalSeconds];
  return here.flatMap((seconds, index): Found[] => {
    const ours = seconds * 1000;
    const theirs = there[index] ?? 0;
    if (Math.abs(ours - theirs) <= tolerance) return [];
    const detail = `${Math.round(ours)} ms here, ${Math.round(theirs)} ms there`;
    return [{ what, barLabel: labelOf(score, order.bars[index]), detail }];
  });
}

type Sound = Pick<Note | Rest, "id" | "barIndex" | "onset" | "duration">;

/** Grace notes are taken out of the source there; hidden rests are mere spacing to the engraver and have no time. */
function soundsHere(score: Score): Map<number, Sound[]> {
  const byBar = new Map<number, Sound[]>();
  for (const part of score.parts) {
    for (const sound of [
      ...part.notes.filter(({ isGrace }) => !isGrace),
      ...part.rests.filter(({ isHidden }) => !isHidden),
    ]) {
      const bar = byBar.get(sound.barIndex);
      if (bar) bar.push(sound);
      else byBar.set(sound.barIndex, [sound]);
    }
  }
  return byBar;
}

/** Each note and rest against its own bar, so that one late bar is not told again for all that follows. */
function compareSounds({ score, order, timemap }: Compared): Found[] {
  const byBar = soundsHere(score);
  const there = soundsThere(timemap);
  const startsThere = new Map(barsThere(timemap).map(({ id, pass, start }) => [joinRound(id, pass), start]));
  const known = new Set<string>();
  const found = order.bars.flatMap(({ barIndex, pass }): Found[] => {
    const bar = score.bars[barIndex];
    const barStart = bar && startsThere.get(joinRound(bar.id, pass));
    return (byBar.get(barIndex) ?? []).flatMap((sound): Found[] => {
      const id = joinRound(sound.id, pass);
      known.add(id);
      if (!bar || !barStart) return [];
      return compareSound(id, bar.label, there.get(id), {
        barStart,
        sound,
        offset: subtractQuarters(sound.onset, bar.start),
      });
    });
  });
  return [...found, ...missingHere(there, known)];
}

function compareSound(
  id: string,
  barLabel: string,
  there: { on: Quarters; off: Quarters } | undefined,
  here: { barStart: Quarters; sound: Sound; offset: Quarters },
): Found[] {
  if (!there) return [{ what: "missing-there", barLabel, detail: id }];
  const offset = subtractQuarters(there.on, here.barStart);
  const duration = subtractQuarters(there.off, there.on);
  const tell = (what: DifferenceKind, ours: Quarters, theirs: Quarters): Found[] => {
    if (isEqualQuarters(ours, theirs)) return [];
    return [{ what, barLabel, detail: `${id}: ${writeQuarters(ours)} here, ${writeQuarters(theirs)} there` }];
  };
  return [...tell("onset", here.offset, offset), ...tell("duration", here.sound.duration, duration)];
}

/** Ids that the engraver makes up are not the same in every run. */
const isOurs = (id: string): boolean => /^n\d+-\d+-\d+(-rend\d+)?$/.test(id);

function missingHere(there: ReadonlyMap<string, unknown>, known: ReadonlySet<string>): Found[] {
  return [...there.keys()].flatMap((id): Found[] =>
    known.has(id)
      ? []
      : [{ what: "missing-here", barLabel: "?", detail: isOurs(id) ? id : "an id of the engraver's own" }],
  );
}

/** Everything in which the two readings of one source differ, a summary for each kind. */
export function compareTimemap(
  score: Score,
  order: PerformedOrder,
  timemap: readonly TimemapEvent[],
): DifferenceSummary[] {
  const compared = { score, order, timemap };
  const inOrder = compareOrder(compared);
  // Clock times of different orders have nothing to say to each other.
  const inTime =
    inOrder.length > 0
      ? []
      : [
          ...compareStarts(compared),
          ...compareSeconds(compared, "seconds", score.tempoMarks),
          ...compareSeconds(compared, "seconds-by-bar", moveToBarStarts(score)),
        ];
  const found = [...inOrder, ...inTime, ...compareSounds(compared)];
  const kinds = [...new Set(found.map(({ what }) => what))];
  return kinds.map((what) => {
    const ofKind = found.filter((one) => one.what === what);
    const first = ofKind[0];
    return { what, count: ofKind.length, first: `bar ${first?.barLabel}, ${first?.detail}` };
  });
}
