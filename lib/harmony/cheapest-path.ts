/** States in a row of frames, with whole-numbered costs, so that sums are exact in any order. */
export interface PathModel {
  /** By frame, by state. */
  readonly costs: readonly Int32Array[];
  /** By frame: the table by state before, by state there. The first frame's is not looked at. */
  readonly changes: readonly (readonly Int32Array[])[];
  /** Decides between paths of equal cost: the lower is taken. */
  rank(frame: number, state: number): number;
}

export interface CheapestPath {
  /** By frame. */
  readonly states: readonly number[];
  /** By frame, by state: how much more than the best path the best path costs that has this state here. */
  readonly excess: readonly Int32Array[];
}

/** The cheapest change from any state of `from` into each. */
function stepForward(from: Int32Array, change: readonly Int32Array[]): Int32Array {
  const to = new Int32Array(from.length).fill(2 ** 30);
  for (let before = 0; before < from.length; before += 1) {
    const row = change[before] as Int32Array;
    for (let state = 0; state < to.length; state += 1) {
      const cost = (from[before] as number) + (row[state] as number);
      if (cost < (to[state] as number)) to[state] = cost;
    }
  }
  return to;
}

/** The cheapest change from each state into any of `after`. */
function stepBack(after: Int32Array, change: readonly Int32Array[]): Int32Array {
  return after.map((_, state) => {
    const row = change[state] as Int32Array;
    let least = 2 ** 30;
    for (let next = 0; next < after.length; next += 1) {
      const cost = (after[next] as number) + (row[next] as number);
      if (cost < least) least = cost;
    }
    return least;
  });
}

const plus = (a: Int32Array, b: Int32Array): Int32Array =>
  a.map((cost, state) => cost + (b[state] as number));
const leastOf = (row: Int32Array): number => row.reduce((least, cost) => Math.min(least, cost));

function measureExcess(model: PathModel, forward: readonly Int32Array[]): Int32Array[] {
  const excess: Int32Array[] = new Array(forward.length);
  let after = new Int32Array(forward[0]?.length ?? 0);
  for (let frame = forward.length - 1; frame >= 0; frame -= 1) {
    const sums = plus(forward[frame] as Int32Array, after);
    const least = leastOf(sums);
    excess[frame] = sums.map((cost) => cost - least);
    const within = plus(after, model.costs[frame] as Int32Array);
    if (frame > 0) after = new Int32Array(stepBack(within, model.changes[frame] as readonly Int32Array[]));
  }
  return excess;
}

function pick(model: PathModel, frame: number, costs: Int32Array): number {
  const least = leastOf(costs);
  const ties = [...costs.keys()].filter((state) => costs[state] === least);
  return ties.reduce((best, state) => (model.rank(frame, state) < model.rank(frame, best) ? state : best));
}

function goBack(model: PathModel, forward: readonly Int32Array[]): number[] {
  const states: number[] = new Array(forward.length);
  for (let frame = forward.length - 1; frame >= 0; frame -= 1) {
    const row = forward[frame] as Int32Array;
    const next = states[frame + 1];
    const change = model.changes[frame + 1];
    const costs =
      next === undefined || !change
        ? row
        : row.map((cost, state) => cost + (change[state]?.[next] as number));
    states[frame] = pick(model, frame, costs);
  }
  return states;
}

/** The cheapest row of states (Viterbi's algorithm), with what any other state would have cost in each frame. */
export function findCheapestPath(model: PathModel): CheapestPath {
  const forward: Int32Array[] = [];
  for (const [frame, costs] of model.costs.entries()) {
    const before = forward[frame - 1];
    const change = model.changes[frame];
    forward.push(before && change ? plus(stepForward(before, change), costs) : costs);
  }
  return { states: goBack(model, forward), excess: measureExcess(model, forward) };
}
