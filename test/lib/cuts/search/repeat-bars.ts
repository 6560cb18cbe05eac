import type { Bar } from "@/lib/score/bar";
import type { CutSpan } from "@/lib/score/cut-span";
import { onsetOf } from "@/lib/score/onset-of";
import {
  addQuarters,
  compareQuarters,
  type Quarters,
  quartersAsNumber,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

interface Timed {
  readonly onset: Quarters;
  readonly barIndex?: number;
  readonly id?: string;
}

/** The score with the bars from `first` on, so many, played twice in a row, as if the composer had written them out. */
export function repeatBars(score: Score, first: number, count: number): Score {
  const [from, to] = [score.bars[first] as Bar, score.bars[first + count] as Bar];
  const length = subtractQuarters(to.start, from.start);
  const moved = <T extends Timed>(item: T, isCopy: boolean): T => ({
    ...item,
    onset: addQuarters(item.onset, length),
    ...(item.barIndex === undefined ? {} : { barIndex: item.barIndex + count }),
    ...(isCopy && item.id !== undefined ? { id: `${item.id}-again` } : {}),
  });
  const twice = <T extends Timed>(items: readonly T[]): T[] => {
    const before = items.filter(({ onset }) => compareQuarters(onset, to.start) < 0);
    const inside = before.filter(({ onset }) => compareQuarters(onset, from.start) >= 0);
    const after = items.filter(({ onset }) => compareQuarters(onset, to.start) >= 0);
    return [
      ...before,
      ...inside.map((item) => moved(item, true)),
      ...after.map((item) => moved(item, false)),
    ];
  };
  const bars = [
    ...score.bars.slice(0, first + count),
    ...score.bars.slice(first).map((bar) => ({
      ...bar,
      id: `${bar.id}-again`,
      index: bar.index + count,
      label: `${bar.label}b`,
      start: addQuarters(bar.start, length),
    })),
  ];
  return {
    ...score,
    bars,
    tempoMarks: twice(score.tempoMarks),
    parts: score.parts.map((part) => ({
      ...part,
      notes: twice(part.notes),
      rests: twice(part.rests),
      directions: twice(part.directions),
    })),
  };
}

/** Written times of slurs, hairpins and the like that are open at a time; ends lie in notes and directions. */
function isOpenAcross(score: Score, time: Quarters): boolean {
  return score.parts.some(({ notes, directions }) => {
    const open = new Set<string>();
    for (const { onset, slurs } of notes.toSorted((a, b) => compareQuarters(a.onset, b.onset))) {
      if (compareQuarters(onset, time) >= 0) break;
      for (const { number, type } of slurs) {
        if (type === "start") open.add(`slur ${number}`);
        if (type === "stop") open.delete(`slur ${number}`);
      }
    }
    for (const direction of directions.toSorted((a, b) => compareQuarters(a.onset, b.onset))) {
      if (direction.kind !== "wedge" || compareQuarters(direction.onset, time) > 0) continue;
      if (direction.type === "stop") open.delete(`wedge ${direction.number}`);
      else if (compareQuarters(direction.onset, time) < 0) open.add(`wedge ${direction.number}`);
    }
    const isHeld = notes.some(
      ({ onset, duration }) =>
        compareQuarters(onset, time) < 0 && compareQuarters(addQuarters(onset, duration), time) > 0,
    );
    const isTied = notes.some(({ onset, tieStop }) => tieStop && compareQuarters(onset, time) === 0);
    return isHeld || isTied || open.size > 0;
  });
}

/** Bars of a span from which on `count` bars can be played twice: nothing is held, slurred or swelling into or out of them. */
export function barsToRepeat(score: Score, span: CutSpan, count: number): number[] {
  const [start, end] = [onsetOf(score, span.from), onsetOf(score, span.to)];
  const isFree = ({ repeats, jumps, start: time }: Bar) =>
    !isOpenAcross(score, time) &&
    !repeats.startsRepeat &&
    repeats.endsRepeatAfter === null &&
    repeats.startsEnding === null &&
    jumps.segno === null &&
    jumps.dalSegno === null;
  return score.bars.flatMap((bar, first) => {
    const last = score.bars[first + count];
    if (!last || compareQuarters(bar.start, start) < 0) return [];
    // Far enough before the entry for its lead-in to stay.
    const left = quartersAsNumber(subtractQuarters(end, last.start)) / quartersAsNumber(last.metreLength);
    const inside = score.bars.slice(first, first + count);
    const areWhole = inside.every((one) => compareQuarters(one.length, one.metreLength) === 0);
    return left >= 6 && areWhole && bar.index > 0 && isFree(bar) && isFree(last) ? [first] : [];
  });
}
