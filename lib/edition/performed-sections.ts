import { assignRoles } from "@/lib/score/assign-roles";
import { leaveOut } from "@/lib/score/leave-out";
import { performedEnd } from "@/lib/score/performed-bars-between";
import { findPerformedOrder, type PerformedOrder } from "@/lib/score/performed-order";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import { readTempoWords } from "@/lib/score/read-tempo-words";
import type { Score } from "@/lib/score/score";
import { readTempoMap, type TempoMap } from "@/lib/score/tempo-map";
import { readTimeline } from "@/lib/score/timeline";
import { toCutSpan } from "./cut-terms";
import type { EditionContent } from "./edition-content";
import { toTempoSettings } from "./tempo-terms";

/** A stretch of what is played between two places that both players know by name. */
export interface PerformedSection {
  /** "A", "C, second time", "Andante", "bars 1–16", "beginning". */
  readonly name: string;
  /** The name is a rehearsal letter. */
  readonly isLetter: boolean;
  /** Performed time with the cuts made, end exclusive. */
  readonly from: Quarters;
  readonly to: Quarters;
  /** By the edition's own tempi. */
  readonly plannedSeconds: number;
}

/** An edition as it is played. */
export interface PlayedEdition {
  readonly score: Score;
  /** The cuts left out. */
  readonly order: PerformedOrder;
  readonly map: TempoMap;
  readonly sections: readonly PerformedSection[];
}

/** With fewer names than these two, a part of the music has no landmarks to tap at. */
const fewestMarks = 2;
/** A longer heading is no name to tap at. */
const longestName = 40;
/** So many sections at most where bars are counted off. */
const mostCounted = 16;

/**
 * The sections of an edition in the order they sound, cuts left out: from rehearsal letter to rehearsal letter; without
 * letters from tempo word to tempo word; without those in equal numbers of bars (8, 16, 32 …, at most 16 sections).
 * A letter that a cut leaves out is no section; one that sounds twice is two.
 *
 * @param score of the source that the edition names.
 * @returns sections that follow one another without a gap and together are the whole; empty when nothing is played.
 */
export function playEdition(score: Score, content: EditionContent): PlayedEdition {
  const inRoles = assignRoles(score, content.partRoles);
  const order = leaveOut(inRoles, findPerformedOrder(inRoles), content.cuts.map(toCutSpan));
  const map = readTempoMap(inRoles, toTempoSettings(content.tempo));
  const timeline = readTimeline(inRoles, order, map);
  const starts = findStarts(inRoles, order);
  const sections = starts.flatMap(({ at, ...name }, index) => {
    const to = starts[index + 1]?.at ?? order.length;
    if (compareQuarters(at, to) >= 0) return [];
    const plannedSeconds = timeline.secondsAtPerformed(to) - timeline.secondsAtPerformed(at);
    return [{ ...name, from: at, to, plannedSeconds }];
  });
  return { score: inRoles, order, map, sections };
}

interface Start {
  readonly at: Quarters;
  readonly name: string;
  readonly isLetter: boolean;
}

function findStarts(score: Score, order: PerformedOrder): Start[] {
  const letters = startsOf(score, order, listLetters(score), true);
  if (letters.length >= fewestMarks) return fromTheBeginning(score, order, letters);
  const tempi = startsOf(score, order, listTempi(score), false);
  return tempi.length >= fewestMarks ? fromTheBeginning(score, order, tempi) : countOff(score, order);
}

interface Mark {
  readonly text: string;
  /** Written time. */
  readonly onset: Quarters;
}

/** Each letter once, however many parts carry it. */
function listLetters(score: Score): Mark[] {
  const letters = new Map<string, Mark>();
  for (const { directions } of score.parts)
    for (const direction of directions) {
      const text = direction.kind === "rehearsal" ? direction.text.trim() : "";
      if (text !== "") letters.set(`${direction.barIndex} ${text}`, { text, onset: direction.onset });
    }
  return [...letters.values()];
}

/** Words that begin a tempo; not those that only slow down or press on. */
function listTempi(score: Score): Mark[] {
  return score.tempoMarks.flatMap(({ words, onset }) => {
    const kind = words === null ? null : readTempoWords(words)?.kind;
    const text = words?.trim().slice(0, longestName) ?? "";
    return text !== "" && (kind === "absolute" || kind === "restore") ? [{ text, onset }] : [];
  });
}

/** Where the marks sound, each time they do. Of two at one place the first counts. */
function startsOf(score: Score, order: PerformedOrder, marks: readonly Mark[], isLetter: boolean): Start[] {
  const found = marks.flatMap(({ text, onset }) =>
    momentsOf(score, order, onset).map((at, time) => ({ at, isLetter, name: nameOf(text, time) })),
  );
  return found
    .toSorted((a, b) => compareQuarters(a.at, b.at))
    .filter(({ at }, index, all) => index === 0 || compareQuarters(at, all[index - 1]?.at ?? at) !== 0);
}

const times = ["", ", second time", ", third time"];

function nameOf(text: string, time: number): string {
  return text + (times[time] ?? `, time ${time + 1}`);
}

/** Performed times at which the music goes on from a written time. */
function momentsOf(score: Score, order: PerformedOrder, onset: Quarters): Quarters[] {
  return order.bars.flatMap((bar) => {
    const start = score.bars[bar.barIndex]?.start ?? noQuarters;
    const offset = subtractQuarters(onset, start);
    const isInside = compareQuarters(bar.from, offset) <= 0 && compareQuarters(offset, bar.to) < 0;
    return isInside ? [addQuarters(bar.start, subtractQuarters(offset, bar.from))] : [];
  });
}

/** What is played before the first mark is a section too; but an upbeat belongs to the mark that it leads to. */
function fromTheBeginning(score: Score, order: PerformedOrder, starts: readonly Start[]): Start[] {
  const [first, ...others] = starts;
  const [upbeat, second] = order.bars;
  if (!first || !upbeat) return [];
  const end = score.bars[upbeat.barIndex]?.isPickup ? (second?.start ?? order.length) : noQuarters;
  if (compareQuarters(first.at, end) <= 0) return [{ ...first, at: noQuarters }, ...others];
  return [{ at: noQuarters, name: "beginning", isLetter: false }, ...starts];
}

function countOff(score: Score, order: PerformedOrder): Start[] {
  const bars = order.bars.filter((bar) => compareQuarters(bar.start, performedEnd(bar)) < 0);
  let size = 8;
  while (bars.length / size > mostCounted) size *= 2;
  return bars.flatMap((bar, index) => {
    if (index % size !== 0) return [];
    const last = bars[Math.min(index + size, bars.length) - 1] ?? bar;
    const [from, to] = [bar, last].map(({ barIndex }) => score.bars[barIndex]?.label);
    return [{ at: bar.start, name: from === to ? `bar ${from}` : `bars ${from}–${to}`, isLetter: false }];
  });
}
