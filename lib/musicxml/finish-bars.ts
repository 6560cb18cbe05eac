import type { Bar } from "@/lib/score/bar";
import { noJumps } from "@/lib/score/bar";
import {
  compareQuarters,
  isEqualQuarters,
  laterOf,
  noQuarters,
  type Quarters,
  quarters,
} from "@/lib/score/quarters";
import { addTime } from "./exact-time";
import type { NoticeBook } from "./notice-book";
import { ReadFailure } from "./read-failure";
import type { BarDraft, Draft, ScoreDraft, WholeBarRest } from "./score-draft";
import { lengthOfMetre, senzaMisura } from "./time-element";

/** A bar whose key and jumps are still to be filled in. */
export type PlacedBar = Draft<Bar>;

/** An empty bar without a metre: a whole note. Source: common practice. */
const emptyBarLength = quarters(4);

/**
 * Lays the bars end to end. A bar is as long as the furthest time that any part reaches in it, and as long as its metre
 * when none reaches any. The bar's own rests count only where their length can be meant (`isMeantLength`) and then take
 * the length of the bar.
 *
 * @param ids of the measures of the first part.
 */
export function placeBars(score: ScoreDraft, ids: readonly string[], notices: NoticeBook): PlacedBar[] {
  let metre = senzaMisura;
  let start = noQuarters;
  const bars = score.bars.slice(0, score.barCount).map((draft, index): PlacedBar => {
    metre = draft.metre ?? metre;
    const metreLength = lengthOfMetre(metre);
    const length = lengthOfBar(draft, index, metreLength);
    const label = draft.label ?? `${index + 1}`;
    const bar = placedBar(
      ids[index] ?? `b${index}`,
      index,
      label,
      start,
      length,
      metreLength ?? length,
      draft,
    );
    bar.metre = metre;
    start = nextStart(start, length, label);
    return bar;
  });
  for (const bar of bars) markShape(bar, score.barAt(bar.index), bars[bar.index - 1], score);
  tellLengths(bars, score, notices);
  return bars;
}

function placedBar(
  id: string,
  index: number,
  label: string,
  start: Quarters,
  length: Quarters,
  metreLength: Quarters,
  draft: BarDraft,
): PlacedBar {
  return {
    id,
    index,
    label,
    start,
    length,
    metreLength,
    metre: senzaMisura,
    key: { fifths: 0, mode: null },
    isPickup: false,
    isIrregular: false,
    repeats: draft.repeats,
    jumps: noJumps,
  };
}

function nextStart(start: Quarters, length: Quarters, barLabel: string): Quarters {
  const next = addTime(start, length);
  if (next === null) throw new ReadFailure({ kind: "time-not-exact", partName: null, barLabel });
  return next;
}

function lengthOfBar(bar: BarDraft, index: number, metreLength: Quarters | null): Quarters {
  let reached = bar.reached;
  for (const rest of bar.wholeBarRests) {
    if (rest.written !== null && isMeantLength(rest.written, bar, index, metreLength)) {
      reached = laterOf(reached, rest.written);
    }
  }
  return reached.num > 0 ? reached : (metreLength ?? emptyBarLength);
}

/**
 * Files give the bar's own rest all sorts of lengths (often a whole note's). It is taken at its word where it equals the
 * metre or there is none; in a first bar, which may be a pickup, also when it is shorter; in an implicit bar, which is
 * as long as its notes, only when there are no notes.
 */
function isMeantLength(
  written: Quarters,
  bar: BarDraft,
  index: number,
  metreLength: Quarters | null,
): boolean {
  if (metreLength === null) return true;
  if (bar.isImplicit) return bar.reached.num === 0;
  const difference = compareQuarters(written, metreLength);
  return difference === 0 || (index === 0 && difference < 0);
}

/**
 * Pickup: a first bar that is shorter than its metre, or a later one that is, is marked `implicit` and follows a double
 * bar line or a repeat. Every other bar that differs from its metre is irregular.
 */
function markShape(bar: PlacedBar, draft: BarDraft, before: PlacedBar | undefined, score: ScoreDraft): void {
  const difference = compareQuarters(bar.length, bar.metreLength);
  const startsPhrase =
    before === undefined ||
    (draft.isImplicit &&
      (bar.repeats.startsRepeat ||
        before.repeats.endsRepeatAfter !== null ||
        score.barAt(before.index).endsWithDoubleLine));
  bar.isPickup = difference < 0 && startsPhrase;
  bar.isIrregular = difference !== 0 && !bar.isPickup;
}

function tellLengths(bars: readonly PlacedBar[], score: ScoreDraft, notices: NoticeBook): void {
  for (const bar of bars) {
    const draft = score.barAt(bar.index);
    tellIrregular(bar, draft, bars, notices);
    for (const rest of draft.wholeBarRests) tellRest(rest, bar, score, notices);
    draft.reachedInParts.forEach((reached, partIndex) => {
      if (reached.num === 0 || isEqualQuarters(reached, bar.length)) return;
      const name = score.parts[partIndex]?.identity.name ?? null;
      notices.add("bar-incomplete", "This part's notes end before the bar does.", name, bar.label);
    });
  }
}

/** A short bar is no fault at the end, or when it makes up a whole one with its neighbour. */
function tellIrregular(
  bar: PlacedBar,
  draft: BarDraft,
  bars: readonly PlacedBar[],
  notices: NoticeBook,
): void {
  if (!bar.isIrregular || draft.isImplicit) return;
  if (compareQuarters(bar.length, bar.metreLength) > 0) {
    notices.add("bar-too-long", "The notes of this bar last longer than its metre.", null, bar.label);
    return;
  }
  const isCompleted = [bars[bar.index - 1], bars[bar.index + 1]].some((neighbour) => {
    const together = neighbour && addTime(bar.length, neighbour.length);
    return together != null && isEqualQuarters(together, bar.metreLength);
  });
  if (isCompleted || bar.index === bars.length - 1) return;
  notices.add("bar-too-short", "The notes of this bar last shorter than its metre.", null, bar.label);
}

function tellRest(found: WholeBarRest, bar: PlacedBar, score: ScoreDraft, notices: NoticeBook): void {
  found.rest.duration = bar.length;
  if (found.written === null || isEqualQuarters(found.written, bar.length)) return;
  const name = score.parts[found.partIndex]?.identity.name ?? null;
  notices.add(
    "rest-length",
    "A rest for the whole bar gave another length; it got the bar's.",
    name,
    bar.label,
  );
}
