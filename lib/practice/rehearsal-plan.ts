import { dayAfter, daysBetween } from "./days";
import { compareRatios, type Ratio } from "./ratio";

/** A passage as the plan sees it. */
export interface PlanPassage {
  readonly key: string;
  /** How much it needs practice: see `needOf`. */
  readonly need: Ratio;
  /** Rungs of its ladder that did not hold yet; 0 when it is at tempo, which run-throughs keep up. */
  readonly rungsLeft: number;
  /** The last day on which it was practised; null when on none. */
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
  /** Before it is due, so that it has a turn at all. */
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
  /** Minutes left for running the piece through; on the last day all of them. */
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
    /** Of all open passages together. */
    readonly rungsLeft: number;
  };
}

/** One passage is practised for so long at a time; ours, within the five to ten minutes of common practice. */
const blockMinutes = 5;
/** So many blocks of one passage a day at most: after a quarter of an hour another passage is better. Ours. */
const mostBlocks = 3;
/** A passage that is not at tempo is not left alone for longer, in days. Ours. */
const longestGap = 7;
/** Nobody plans further ahead. */
const mostDays = 366;

/** How the plan is made, in a sentence, for the screen and the page. */
export const planScheme =
  "The weakest first; a rung each time, spread over the days that are left and a week apart at most; on the last day only run-throughs (common practice, the figures are ours).";

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
 * A passage is due again after the practice days that were left divided by the rungs that were, so that each rung has its
 * visit. Each day takes passages that were never practised, then those that are due, the neediest first; those of the day
 * share what is left of it, and the rest is for running through. A passage comes back before all others have had a turn only
 * while enough time is left for those.
 *
 * @throws RangeError if a day is no date, or the minutes or rungs are not whole or less than none.
 */
export function planRehearsals(passages: readonly PlanPassage[], terms: PlanTerms): RehearsalPlan {
  const { today, performanceOn, minutesADay } = terms;
  for (const count of [minutesADay, ...passages.map(({ rungsLeft }) => rungsLeft)])
    if (!Number.isSafeInteger(count) || count < 0) throw new RangeError(`Not a whole number: ${count}`);
  const daysLeft = Math.min(mostDays, Math.max(0, daysBetween(today, performanceOn)));
  const practiceDays = Math.max(0, daysLeft - 1);
  const block = Math.min(blockMinutes, minutesADay);
  const blocksADay = block === 0 ? 0 : Math.floor(minutesADay / block);
  const open = passages
    .filter(({ rungsLeft }) => rungsLeft > 0)
    .toSorted((a, b) => compareRatios(b.need, a.need) || a.key.localeCompare(b.key))
    .map((passage): Progress => ({ ...passage, isPlanned: false, visits: 0, last: passage.lastOn }));
  const days = Array.from({ length: practiceDays }, (_, index): PlannedDay => {
    const on = dayAfter(today, index);
    const daysAfter = practiceDays - index - 1;
    const sessions = planDay(open, { on, daysAfter, block, blocksADay });
    const used = sessions.reduce((sum, { minutes }) => sum + minutes, 0);
    return { on, sessions, runThroughMinutes: minutesADay - used, isLast: false };
  });
  const lastDay = { sessions: [], runThroughMinutes: minutesADay, isLast: true };
  return {
    days: daysLeft > 0 ? [...days, { on: dayAfter(today, daysLeft - 1), ...lastDay }] : [],
    leftOut: open.filter(({ isPlanned }) => !isPlanned).map(({ key }) => key),
    evidence: {
      ...{ daysLeft, practiceDays, blockMinutes: block, blocksADay, openPassages: open.length },
      rungsLeft: open.reduce((sum, { rungsLeft }) => sum + rungsLeft, 0),
    },
  };
}

interface DayTerms {
  readonly on: string;
  /** Practice days after this one. */
  readonly daysAfter: number;
  readonly block: number;
  readonly blocksADay: number;
}

interface Chosen {
  readonly passage: Progress;
  readonly reason: SessionReason;
  blocks: number;
}

function planDay(open: readonly Progress[], day: DayTerms): PlannedSession[] {
  const chosen: Chosen[] = [];
  choose(chosen, candidatesOn(open, day), open, day);
  shareOut(chosen, day);
  for (const { passage } of chosen) {
    passage.visits += 1;
    passage.last = day.on;
  }
  return chosen
    .toSorted((a, b) => open.indexOf(a.passage) - open.indexOf(b.passage))
    .map(({ passage, blocks, reason }) => ({ key: passage.key, minutes: blocks * day.block, reason }));
}

const blocksLeft = (chosen: readonly Chosen[], { blocksADay }: DayTerms): number =>
  blocksADay - chosen.reduce((sum, { blocks }) => sum + blocks, 0);

/** A block for each, as far as there are any. */
function choose(
  chosen: Chosen[],
  candidates: readonly Candidate[],
  open: readonly Progress[],
  day: DayTerms,
): void {
  for (const { passage, reason } of candidates) {
    const left = blocksLeft(chosen, day);
    if (left === 0) return;
    // A passage that had its turn may not take the last room of one that still waits for it.
    if (passage.isPlanned && left + day.daysAfter * day.blocksADay <= countWaiting(open)) continue;
    chosen.push({ passage, reason, blocks: 1 });
    passage.isPlanned = true;
  }
}

const countWaiting = (open: readonly Progress[]): number => open.filter(({ isPlanned }) => !isPlanned).length;

/** Of the blocks that are left, each passage of the day gets another in turn, the neediest first. */
function shareOut(chosen: readonly Chosen[], day: DayTerms): void {
  const byNeed = chosen.toSorted((a, b) => compareRatios(b.passage.need, a.passage.need));
  let left = blocksLeft(chosen, day);
  for (let round = 2; round <= mostBlocks; round += 1) {
    for (const entry of byNeed) {
      if (left === 0) return;
      if (entry.blocks >= round) continue;
      entry.blocks += 1;
      left -= 1;
    }
  }
}

interface Candidate {
  readonly passage: Progress;
  readonly reason: SessionReason;
}

/**
 * Never practised, then due, each the neediest first; then those that still wait for their turn in this plan, though they
 * are not due.
 */
function candidatesOn(open: readonly Progress[], day: DayTerms): Candidate[] {
  const candidates = open
    .filter(({ last }) => last === null || daysBetween(last, day.on) > 0)
    .map((passage) => ({ passage, reason: reasonOn(passage, day) }));
  const of = (kind: SessionReason["kind"]) => candidates.filter(({ reason }) => reason.kind === kind);
  return [...of("first"), ...of("due"), ...of("early").filter(({ passage }) => !passage.isPlanned)];
}

function reasonOn({ rungsLeft, visits, last }: Progress, { on, daysAfter }: DayTerms): SessionReason {
  if (last === null) return { kind: "first" };
  const daysSince = daysBetween(last, on);
  // The days after the last visit over the rungs that are left; rounded down, so that no rung is left over.
  const [days, rungs] = [daysAfter + daysSince, rungsLeft - visits];
  const dueAfter = rungs > 0 ? Math.min(longestGap, Math.max(1, Math.floor(days / rungs))) : longestGap;
  return { kind: daysSince >= dueAfter ? "due" : "early", daysSince, dueAfter };
}
