import type { Steps } from "@/lib/score/steps";
import { type BarEvent, writeEvents } from "./bar-event";
import { addFidelity, beatsOf, compareBar, type Fidelity, lossOf, wholeFidelity } from "./fidelity";
import type { BarToRewrite, Operator } from "./operators/operator";
import { toTheOtherHand } from "./operators/other-hand";
import { shorterLeaps } from "./operators/shorter-leaps";
import {
  dropInnerDoublings,
  leaveToSoloist,
  lineAlone,
  outerNotes,
  roll,
  singleForOctave,
  withinReach,
} from "./operators/thin-chords";
import { halfRate, onTheBeat, outlineRun } from "./operators/thin-strokes";
import { tremoloFor, uncounted } from "./operators/tremolo";

/** In the order in which pianists leave things out: what costs the listener least comes first. Common practice. */
const operators: readonly Operator[] = [
  leaveToSoloist,
  dropInnerDoublings("right"),
  dropInnerDoublings("left"),
  toTheOtherHand,
  tremoloFor("right"),
  tremoloFor("left"),
  uncounted("right"),
  uncounted("left"),
  roll("right"),
  roll("left"),
  withinReach("right"),
  withinReach("left"),
  singleForOctave("right"),
  singleForOctave("left"),
  shorterLeaps("right"),
  shorterLeaps("left"),
  outerNotes("right"),
  outerNotes("left"),
  halfRate("right"),
  halfRate("left"),
  onTheBeat("right"),
  onTheBeat("left"),
  outlineRun("right"),
  outlineRun("left"),
  lineAlone("right"),
  lineAlone("left"),
];

/** So many things are done to one bar at most, and so many versions of it are weighed. */
const [mostSteps, mostVersions] = [3, 24];

/** A bar of the passage as it is printed. */
export interface PrintedBar extends BarToRewrite {
  readonly events: readonly BarEvent[];
}

/**
 * What a version of a bar asks of the hands, 1 where it stops being comfortable (`lib/hands`), and whether it lies within
 * their reach.
 *
 * @param before what is played in the bar before; null before the passage.
 */
export type JudgeBar = (
  barIndex: number,
  before: readonly BarEvent[] | null,
  events: readonly BarEvent[],
) => { readonly load: number; readonly isWithinReach: boolean };

/** A passage written otherwise. */
export interface ChosenRewrite {
  /** By bar of the passage. */
  readonly bars: readonly (readonly BarEvent[])[];
  /** What was done, in the order of the operators; each once. */
  readonly words: readonly string[];
  readonly fidelity: Fidelity;
  /** The worst of its bars, and of the printed ones. */
  readonly load: number;
  readonly printedLoad: number;
  /** No hand has to strike more together than it reaches. */
  readonly isWithinReach: boolean;
}

interface Version {
  readonly events: readonly BarEvent[];
  readonly done: readonly Operator[];
  readonly fidelity: Fidelity;
  readonly loss: number;
}

export interface RewriteWish {
  /** Of the hands, 1 where it stops being comfortable. */
  readonly wishedLoad: number;
  /** How many ways; each does something else than those before it. Fewer when there is nothing else to do. */
  readonly count: number;
}

/**
 * The best ways of writing a passage so that it lies under the hands: of all versions of its bars, those that keep the
 * load under `wishedLoad` with the least loss to the listener; where none does, those that come nearest. Exact over the
 * versions of each bar, which are found by doing up to three things to it. A bar at a time, so that it can be left.
 */
export function* chooseRewritesInSteps(
  bars: readonly PrintedBar[],
  judgeBar: JudgeBar,
  { wishedLoad, count }: RewriteWish,
): Steps<ChosenRewrite[]> {
  const judge = remember(judgeBar);
  const total = bars.length + count;
  const versions: Version[][] = [];
  for (const bar of bars) {
    versions.push(findVersions(bar, judge, wishedLoad));
    yield { done: versions.length, total };
  }
  const chosen: ChosenRewrite[] = [];
  const taken = new Set<string>();
  let left = versions;
  while (chosen.length < count && left.every((list) => list.length > 0)) {
    const way = bestWay(bars, left, judge, wishedLoad);
    const done = operators.filter((operator) => way.some((version) => version.done.includes(operator)));
    if (done.length === 0) break;
    const written = toChosen(bars, way, done, judge);
    const key = written.bars.map(writeEvents).join();
    if (!taken.has(key)) chosen.push(written);
    taken.add(key);
    // The next one does without what carries this one.
    const carrying = carrierOf(way);
    left = left.map((list) => list.filter(({ done: steps }) => !steps.includes(carrying)));
    yield { done: bars.length + Math.min(chosen.length, count - 1), total };
  }
  return chosen;
}

/** The same bar after the same bar is judged once. */
function remember(judge: JudgeBar): JudgeBar {
  const judged = new Map<string, ReturnType<JudgeBar>>();
  const textOf = new WeakMap<readonly BarEvent[], string>();
  const write = (events: readonly BarEvent[] | null) => {
    if (events === null) return "";
    const text = textOf.get(events) ?? writeEvents(events);
    textOf.set(events, text);
    return text;
  };
  return (barIndex, before, events) => {
    const key = `${barIndex} ${write(before)} ${write(events)}`;
    const known = judged.get(key) ?? judge(barIndex, before, events);
    judged.set(key, known);
    return known;
  };
}

/** What was done in the most bars of a way; the last of equals, because it costs most. */
function carrierOf(way: readonly Version[]): Operator {
  const uses = (operator: Operator) => way.filter(({ done }) => done.includes(operator)).length;
  return operators.reduce((best, other) => (uses(other) >= uses(best) ? other : best));
}

/** The best versions of a bar, and the print itself unless only that is beyond reach. */
function findVersions(bar: PrintedBar, judge: JudgeBar, wishedLoad: number): Version[] {
  const print = toVersion(bar, bar.events, []);
  const found = new Map([[writeEvents(bar.events), print]]);
  let edge = [...found.values()];
  for (let step = 0; step < mostSteps; step += 1) {
    const next = edge
      .flatMap((version) => oneStepOn(bar, version))
      .filter(({ events }) => !found.has(writeEvents(events)));
    edge = keepBest(bar, dedupe(next), judge, wishedLoad);
    for (const version of edge) found.set(writeEvents(version.events), version);
  }
  const versions = keepBest(bar, [...found.values()].slice(1), judge, wishedLoad);
  const isPrintWithinReach = judge(bar.barIndex, null, bar.events).isWithinReach;
  return isPrintWithinReach || versions.length === 0 ? [...versions, print] : versions;
}

/** Operators in their order only: the same things done in another order come to the same. */
function oneStepOn(bar: PrintedBar, { events, done }: Version): Version[] {
  const from = done.length === 0 ? 0 : operators.indexOf(done.at(-1) as Operator) + 1;
  return operators.slice(from).flatMap((operator) => {
    const written = operator.apply(events, bar);
    return written === null ? [] : [toVersion(bar, written, [...done, operator])];
  });
}

function toVersion(bar: PrintedBar, events: readonly BarEvent[], done: readonly Operator[]): Version {
  const fidelity = compareBar(bar.events, events, beatsOf(bar.length, bar.beat));
  return { events, done, fidelity, loss: lossOf(fidelity) + effort * done.length };
}

/** Of two ways that lose the same, the one that changes less. */
const effort = 1e-3;

function dedupe(versions: readonly Version[]): Version[] {
  const byText = new Map<string, Version>();
  for (const version of versions) {
    const text = writeEvents(version.events);
    if (version.loss < (byText.get(text)?.loss ?? Number.POSITIVE_INFINITY)) byText.set(text, version);
  }
  return [...byText.values()];
}

/** By how far it is from what is wished, then by what is lost. A version beyond reach is none. */
function keepBest(
  bar: PrintedBar,
  versions: readonly Version[],
  judge: JudgeBar,
  wishedLoad: number,
): Version[] {
  return versions
    .map((version) => ({ version, ...judge(bar.barIndex, null, version.events) }))
    .filter(({ isWithinReach }) => isWithinReach)
    .map(({ version, load }) => ({ version, excess: Math.max(0, load - wishedLoad) }))
    .sort((a, b) => a.excess - b.excess || a.version.loss - b.version.loss)
    .slice(0, mostVersions)
    .map(({ version }) => version);
}

interface Way {
  readonly excess: number;
  readonly loss: number;
  readonly versions: readonly Version[];
}

const isBetter = (a: Way, b: Way) => (a.excess === b.excess ? a.loss < b.loss : a.excess < b.excess);

/** Through the bars, from each version to each version of the next: least excess, then least loss. */
function bestWay(
  bars: readonly PrintedBar[],
  versions: readonly (readonly Version[])[],
  judge: JudgeBar,
  wishedLoad: number,
): readonly Version[] {
  let ways: Way[] = [{ excess: 0, loss: 0, versions: [] }];
  for (const [index, list] of versions.entries()) {
    const bar = bars[index] as PrintedBar;
    ways = list.map((version) => {
      const reached = ways.map((way): Way => {
        const { load } = judge(bar.barIndex, way.versions.at(-1)?.events ?? null, version.events);
        const excess = way.excess + Math.max(0, load - wishedLoad);
        return { excess, loss: way.loss + version.loss, versions: [...way.versions, version] };
      });
      return reached.reduce((best, other) => (isBetter(other, best) ? other : best));
    });
  }
  return ways.reduce((best, other) => (isBetter(other, best) ? other : best)).versions;
}

function toChosen(
  bars: readonly PrintedBar[],
  way: readonly Version[],
  done: readonly Operator[],
  judge: JudgeBar,
): ChosenRewrite {
  const judgeAll = (events: (index: number) => readonly BarEvent[]) =>
    bars.map(({ barIndex }, index) => judge(barIndex, index === 0 ? null : events(index - 1), events(index)));
  const loadOf = (judged: readonly ReturnType<JudgeBar>[]) => Math.max(...judged.map(({ load }) => load));
  const written = judgeAll((index) => way[index]?.events ?? []);
  return {
    bars: way.map(({ events }) => events),
    words: [...new Set(done.map(({ words }) => words))],
    fidelity: way.reduce((sum, { fidelity }) => addFidelity(sum, fidelity), wholeFidelity),
    load: loadOf(written),
    printedLoad: loadOf(judgeAll((index) => bars[index]?.events ?? [])),
    isWithinReach: written.every((bar) => bar.isWithinReach),
  };
}
