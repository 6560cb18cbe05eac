import { pageCost } from "./page-cost";
import type { PageRoom } from "./page-room";
import { isTurned, type Paging } from "./paging";

/** Units (bars, or whole systems of the engraver) that may stand in one system. */
export interface SystemChoice {
  /** The unit after its last. */
  readonly end: number;
  /** In points. */
  readonly height: number;
  /** Of spacing it so. */
  readonly cost: number;
}

export interface BreakProblem {
  readonly unitCount: number;
  /** The systems that may begin with a unit. At least one. */
  readonly choicesFrom: (unit: number) => readonly SystemChoice[];
  readonly room: PageRoom;
  readonly paging: Paging;
  /** Of turning a page before a unit. */
  readonly turnCost: (unit: number) => number;
  /** Units that begin a page, whatever it costs. */
  readonly pins: ReadonlySet<number>;
}

export interface PlannedSystem {
  readonly start: number;
  readonly end: number;
}

export interface BreakPlan {
  /** The systems of each page. */
  readonly pages: readonly (readonly PlannedSystem[])[];
  readonly cost: number;
}

/** The music before a unit is on pages, its last system ending at `y`. */
interface State {
  readonly cost: number;
  readonly y: number;
  readonly pageIndex: number;
  readonly system: PlannedSystem | null;
  readonly before: State | null;
}

/**
 * System and page breaks of the least cost, exactly: a dynamic programme over the units. States differ by how far down the
 * page the music reaches, whether it is page 1, whose room differs, and whether the page is turned.
 *
 * Costs: of turning (`turnCost`), of pages badly filled (`pageCost`) and of systems badly spaced (`SystemChoice.cost`). A
 * system higher than a page gets one of its own. At equal cost the plan found first stands, so that the same music gives the same
 * pages.
 *
 * @throws RangeError if a unit has no choices, or pins leave none.
 */
export function planBreaks(problem: BreakProblem): BreakPlan {
  const { unitCount, choicesFrom, pins } = problem;
  const reached: Map<number, State>[] = Array.from({ length: unitCount + 1 }, () => new Map());
  reached[0]?.set(0, { cost: 0, y: Number.NaN, pageIndex: -1, system: null, before: null });
  for (let unit = 0; unit < unitCount; unit += 1) {
    const choices = choicesFrom(unit).filter(({ end }) => !holdsPin(pins, unit, end));
    for (const state of reached[unit]?.values() ?? []) {
      for (const choice of choices) {
        for (const next of continuations(problem, state, unit, choice))
          keepBest(reached[choice.end], next, problem);
      }
    }
  }
  return finish(problem, [...(reached[unitCount]?.values() ?? [])]);
}

function holdsPin(pins: ReadonlySet<number>, start: number, end: number): boolean {
  for (let unit = start + 1; unit < end; unit += 1) if (pins.has(unit)) return true;
  return false;
}

/** The system on the same page, if there is room, and on a new one. */
function continuations(problem: BreakProblem, state: State, unit: number, choice: SystemChoice): State[] {
  const { room, pins } = problem;
  const system = { start: unit, end: choice.end };
  const spaced = state.cost + choice.cost;
  const y = state.y + room.gap + choice.height;
  const isPinned = unit === 0 || pins.has(unit);
  const same = isPinned || y > room.bottom ? [] : [{ ...state, cost: spaced, y, system, before: state }];
  const pageIndex = state.pageIndex + 1;
  const top = pageIndex === 0 ? room.firstTop : room.top;
  const broken: State = {
    cost: spaced + (unit === 0 ? 0 : leaveCost(problem, state, unit)),
    y: top + choice.height,
    pageIndex,
    system,
    before: state,
  };
  return [...same, broken];
}

function leaveCost({ room, paging, turnCost }: BreakProblem, state: State, unit: number): number {
  const turn = isTurned(state.pageIndex, paging) ? turnCost(unit) : 0;
  return turn + pageCost(shareOf(room, state), false);
}

function shareOf(room: PageRoom, { y, pageIndex }: State): number {
  const top = pageIndex === 0 ? room.firstTop : room.top;
  return (y - top) / (room.bottom - top);
}

function keepBest(states: Map<number, State> | undefined, next: State, { paging }: BreakProblem): void {
  if (!states) return;
  // Heights in thousandths of a point: what is equal in them is equal for all that follows.
  const kind = (next.pageIndex === 0 ? 2 : 0) + (isTurned(next.pageIndex, paging) ? 1 : 0);
  const key = Math.round(next.y * 1000) * 4 + kind;
  const known = states.get(key);
  if (!known || next.cost < known.cost) states.set(key, next);
}

function finish({ room, unitCount }: BreakProblem, ends: readonly State[]): BreakPlan {
  if (unitCount === 0) return { pages: [], cost: 0 };
  let best: State | null = null;
  let bestCost = Number.POSITIVE_INFINITY;
  for (const state of ends) {
    const cost = state.cost + pageCost(shareOf(room, state), true);
    if (cost < bestCost) [best, bestCost] = [state, cost];
  }
  if (!best) throw new RangeError(`No breaks are possible for ${unitCount} units`);
  const pages: PlannedSystem[][] = [];
  for (let state: State | null = best; state?.system; state = state.before) {
    pages[state.pageIndex] ??= [];
    pages[state.pageIndex]?.unshift(state.system);
  }
  return { pages, cost: bestCost };
}
