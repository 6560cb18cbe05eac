import { dayAfter, daysBetween } from "./days";
import { compareRatios, type Ratio } from "./ratio";

/** A passage as the plan sees it. */
export interface PlanPassage {
  readonly key: string;
  /** How much it needs practice: see `needOf`. */
  readonly need: Ratio;
  /** It is not yet at tempo. What is at tempo is kept up by run-throughs. */
  readonly isOpen: boolean;
  /** Days on which it was practised before, and the last of them; null when on none. */
  readonly daysPractised: number;
  readonly lastOn: string | null;
}

export interface PlanTerms {
  readonly today: string;
  /** The day of the performance: on it and after it nothing is planned. */
  readonly performanceOn: string;
  /** Whole minutes a day at the piano. */
  readonly minutesADay: number;
}

/** Why a passage is practised on a day. */
export type SessionReason =
  | { readonly kind: "first" }
  /** Days since it was practised last, and after how many it is due. */
  | { readonly kind: "due"; readonly daysSince: number; readonly dueAfter: number }
  /** Before it is due, because room is left or the time is running out. */
  | { readonly kind: "early"; readonly daysSince: number; readonly dueAfter: number };

export interface PlannedSession {
  readonly key: string;
  readonly minutes: number;
  readonly reason: SessionReason;
}

export interface PlannedDay {
  readonly on: string;
  /** The neediest first. */
  readonly sessions: readonly PlannedSession[];
  /** Minutes left for playing on, or on the last day all of them for running the piece through. */
  readonly runThroughMinutes: number;
  readonly isLast: boolean;
}

export interface RehearsalPlan {
  /** From today to the day before the performance. */
  readonly days: readonly PlannedDay[];
  /** Open passages for which there is no time, the neediest first. */
  readonly leftOut: readonly string[];
  readonly evidence: {
    readonly daysLeft: number;
    /** Days before the last one. */
    readonly practiceDays: number;
    readonly blockMinutes: number;
    readonly blocksADay: number;
    readonly openPassages: number;
  };
}

/** One passage is practised for so long at a time; ours, within the five to ten minutes of common practice. */
const blockMinutes = 5;
/** So many blocks of one passage a day at most: after a quarter of an hour another passage is better. Ours. */
const mostBlocks = 3;
/** Days after which a passage is due again, by how often it was practised: wider and wider. Ours, by common practice. */
const spacing = [1, 2, 4, 7] as const;
/** Nobody plans further ahead. */
const mostDays = 366;

/** How the plan is made, in a sentence, for the screen and the page. */
export const planScheme =
  "The weakest first; every passage again after 1, 2, 4, then every 7 days; the last day only run-throughs (common practice, the figures are ours).";

interface Progress extends PlanPassage {
  /** It has been given a day in this plan. */
  isPlanned: boolean;
  visits: number;
  last: string | null;
}

/**
 * What to practise on which day before a performance. In whole minutes, by these laws: no day has more than its minutes;
 * nothing lies on the day of the performance or after it; on the day before it the piece is only run through; no passage is
 * twice on a day; and every open passage appears when there are as many blocks of time as open passages.
 *
 * Each day takes passages that were never practised, then those that are due, the neediest first, then what is due next; a
 * passage comes back before all others have had a turn only while enough time is left for those.
 *
 * @throws RangeError if a day is no date or the minutes are not whole or less than none.
 */
export function planRehearsals(passages: readonly PlanPassage[], terms: PlanTerms): RehearsalPlan {
  const { today, performanceOn, minutesADay } = terms;
  if (!Number.isSafeInteger(minutesADay) || minutesADay < 0)
    throw new RangeError(`Not whole minutes a day: ${minutesADay}`);
  const daysLeft = Math.min(mostDays, Math.max(0, daysBetween(today, performanceOn)));
  const practiceDays = Math.max(0, daysLeft - 1);
  const block = Math.min(blockMinutes, minutesADay);
  const blocksADay = block === 0 ? 0 : Math.floor(minutesADay / block);
  const open = passages
    .filter(({ isOpen }) => isOpen)
    .toSorted((a, b) => compareRatios(b.need, a.need) || a.key.localeCompare(b.key))
    .map(
      (passage): Progress => ({
        ...passage,
        ...{ isPlanned: false, visits: passage.daysPractised, last: passage.lastOn },
      }),
    );
  const days = Array.from({ length: practiceDays }, (_, index): PlannedDay => {
    const on = dayAfter(today, index);
    const sessions = planDay(open, on, {
      block,
      blocksADay,
      blocksAfter: (practiceDays - index - 1) * blocksADay,
    });
    const used = sessions.reduce((sum, { minutes }) => sum + minutes, 0);
    return { on, sessions, runThroughMinutes: minutesADay - used, isLast: false };
  });
  const lastDay = { sessions: [], runThroughMinutes: minutesADay, isLast: true };
  return {
    days: daysLeft > 0 ? [...days, { on: dayAfter(today, daysLeft - 1), ...lastDay }] : [],
    leftOut: open.filter(({ isPlanned }) => !isPlanned).map(({ key }) => key),
    evidence: { daysLeft, practiceDays, blockMinutes: block, blocksADay, openPassages: open.length },
  };
}

interface DayBlocks {
  readonly block: number;
  readonly blocksADay: number;
  /** Of the practice days after this one. */
  readonly blocksAfter: number;
}

function planDay(open: readonly Progress[], on: string, { block, blocksADay, blocksAfter }: DayBlocks) {
  const chosen: { passage: Progress; blocks: number; reason: SessionReason }[] = [];
  const waiting = () => open.filter(({ isPlanned }) => !isPlanned).length;
  for (const passage of candidatesOn(open, on)) {
    const left = blocksADay - chosen.length;
    if (left === 0) break;
    // A passage that had its turn may not take the last room of one that still waits for it.
    if (passage.isPlanned && left + blocksAfter <= waiting()) continue;
    chosen.push({ passage, blocks: 1, reason: reasonOn(passage, on) });
    passage.isPlanned = true;
  }
  shareOut(chosen, blocksADay - chosen.length);
  for (const { passage } of chosen) {
    passage.visits += 1;
    passage.last = on;
  }
  const inOrder = chosen.toSorted((a, b) => open.indexOf(a.passage) - open.indexOf(b.passage));
  return inOrder.map(
    ({ passage, blocks, reason }): PlannedSession => ({
      key: passage.key,
      minutes: blocks * block,
      reason,
    }),
  );
}

/** Of the blocks that are left, each passage of the day gets another in turn, the neediest first. */
function shareOut(chosen: { passage: Progress; blocks: number }[], blocks: number): void {
  const byNeed = chosen.toSorted((a, b) => compareRatios(b.passage.need, a.passage.need));
  let left = blocks;
  for (let round = 2; round <= mostBlocks; round += 1) {
    for (const entry of byNeed) {
      if (left === 0) return;
      entry.blocks += 1;
      left -= 1;
    }
  }
}

/**
 * Never practised; due; not yet due, those that still wait for their turn in this plan first. The neediest first, but of
 * those that are not yet due the ones that are so soonest.
 */
function candidatesOn(open: readonly Progress[], on: string): Progress[] {
  const places = open
    .filter(({ last }) => last === null || daysBetween(last, on) > 0)
    .map((passage) => ({ passage, ...rankOn(passage, on) }));
  places.sort(
    (a, b) => a.rank - b.rank || a.daysToGo - b.daysToGo || compareRatios(b.passage.need, a.passage.need),
  );
  return places.map(({ passage }) => passage);
}

function rankOn(passage: Progress, on: string): { rank: number; daysToGo: number } {
  const reason = reasonOn(passage, on);
  if (reason.kind === "first") return { rank: 0, daysToGo: 0 };
  if (reason.kind === "due") return { rank: 1, daysToGo: 0 };
  return { rank: passage.isPlanned ? 3 : 2, daysToGo: reason.dueAfter - reason.daysSince };
}

function reasonOn({ visits, last }: Progress, on: string): SessionReason {
  if (last === null) return { kind: "first" };
  const dueAfter = spacing[Math.min(Math.max(visits, 1), spacing.length) - 1] ?? 1;
  const daysSince = daysBetween(last, on);
  return { kind: daysSince >= dueAfter ? "due" : "early", daysSince, dueAfter };
}
