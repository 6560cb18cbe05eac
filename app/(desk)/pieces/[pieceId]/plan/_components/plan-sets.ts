import type { JoinGrade } from "@/lib/cuts/join/join-row";
import type { PiecePlan, PlannedCandidate } from "@/lib/study/plan-piece";
import type { SetChoice } from "./wishes";

/** A set of cuts beside the agreed ones, as the screen shows it. */
export interface ShownSet {
  /** In the order of the page. */
  readonly cuts: readonly PlannedCandidate[];
  /** Beside what is agreed, by the numbers, in seconds. */
  readonly saves: number;
  /** With what is agreed, by the numbers, in seconds. */
  readonly runs: number;
  /** The worst of its joins; null without a cut. */
  readonly grade: JoinGrade | null;
}

export interface PlanSets {
  /** From "play everything" to "as short as it gets": the best set for each second. */
  readonly steps: readonly ShownSet[];
  /** Which of the steps is the best for the limit; null when nothing fits or there is no limit. */
  readonly bestStep: number | null;
  /** Other sets that fit. */
  readonly others: readonly ShownSet[];
}

/** A set that is looked at, and where the slider stands. */
export interface Looked {
  readonly set: ShownSet;
  readonly step: number;
  readonly isBest: boolean;
  /** In the list of others; null for a set of the slider. */
  readonly other: number | null;
}

const order: readonly JoinGrade[] = ["clean", "needs-a-touch", "rough"];

const lasts = ({ gaps }: PlannedCandidate) => gaps.reduce((sum, { from, to }) => sum + to - from, 0);

function showSet(
  candidates: readonly PlannedCandidate[],
  indices: readonly number[],
  standsSeconds: number,
): ShownSet {
  const cuts = indices
    .flatMap((index) => candidates[index] ?? [])
    .sort((a, b) => (a.gaps[0]?.from ?? 0) - (b.gaps[0]?.from ?? 0));
  const saves = cuts.reduce((sum, cut) => sum + lasts(cut), 0);
  const worst = Math.max(-1, ...cuts.map(({ grade }) => order.indexOf(grade)));
  return { cuts, saves, runs: standsSeconds - saves, grade: order[worst] ?? null };
}

const keyOf = (indices: readonly number[]) => [...indices].sort((a, b) => a - b).join(" ");

/**
 * The sets of a plan. The front may hold many sets within one second: of these the cheapest stands for all, and the best for
 * the limit always stays.
 *
 * @param standsSeconds with the agreed cuts alone, by the numbers.
 */
export function listSets({ candidates, plan }: PiecePlan, standsSeconds: number): PlanSets {
  const best =
    plan.best && plan.limitSeconds !== null ? keyOf(plan.best.cuts.map(({ index }) => index)) : null;
  const points = [{ cuts: [] as readonly number[] }, ...plan.front.filter(({ cuts }) => cuts.length > 0)];
  const steps: ShownSet[] = [];
  let bestStep: number | null = null;
  for (const [at, { cuts }] of points.entries()) {
    const set = showSet(candidates, cuts, standsSeconds);
    const isBest = keyOf(cuts) === best;
    const last = steps.at(-1);
    const isNew =
      !last || Math.round(set.runs) !== Math.round(last.runs) || isBest || at === points.length - 1;
    if (!isNew) continue;
    if (isBest) bestStep = steps.length;
    steps.push(set);
  }
  const others = plan.runnersUp.map((set) =>
    showSet(
      candidates,
      set.cuts.map(({ index }) => index),
      standsSeconds,
    ),
  );
  return { steps, bestStep, others: bestStep === null ? [] : others };
}

/** The first step that saves as much, to the millisecond of an address; the shortest when none does. */
function stepSaving(steps: readonly ShownSet[], saves: number): number {
  const found = steps.findIndex((step) => step.saves >= saves - 0.001);
  return found === -1 ? steps.length - 1 : found;
}

/** The set that is looked at. Without a limit it is everything at first; where nothing fits, the shortest. */
export function lookAt(sets: PlanSets, choice: SetChoice, hasLimit: boolean): Looked {
  const { steps, bestStep, others } = sets;
  const other = choice.kind === "other" ? (others[choice.index] ?? null) : null;
  if (choice.kind === "other" && other) {
    return { set: other, step: stepSaving(steps, other.saves), isBest: false, other: choice.index };
  }
  const start = bestStep ?? (hasLimit ? steps.length - 1 : 0);
  const step = choice.kind === "length" ? stepSaving(steps, choice.saves) : start;
  const set = steps[step] ?? { cuts: [], saves: 0, runs: 0, grade: null };
  return { set, step, isBest: step === bestStep, other: null };
}

/** A run of neighbouring steps whose worst join is the same. */
export interface GradeRun {
  readonly grade: JoinGrade | null;
  readonly first: number;
  readonly last: number;
}

/** What the joins of the steps are like, along the slider. */
export function gradeRuns(steps: readonly Pick<ShownSet, "grade">[]): GradeRun[] {
  const runs: GradeRun[] = [];
  for (const [index, { grade }] of steps.entries()) {
    const last = runs.at(-1);
    if (last?.grade === grade) runs[runs.length - 1] = { ...last, last: index };
    else runs.push({ grade, first: index, last: index });
  }
  return runs;
}
