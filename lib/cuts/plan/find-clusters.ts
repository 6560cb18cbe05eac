import type { Ground, GroundCut, GroundRest, GroundRun } from "./plan-ground";

/** The part of a run in which the cuts of a cluster can change a rest. Places. */
export interface Stage {
  /** In the ground's list of runs. */
  readonly run: number;
  readonly from: number;
  readonly to: number;
  /** Whether a rest may come in over the jump before the run, and go out over the jump behind it. */
  readonly opensLeft: boolean;
  readonly opensRight: boolean;
}

/** Cuts that hang together: by sharing music, or by touching the same rest. Those of two clusters never do. */
export interface Cluster {
  /** By where they begin. */
  readonly cuts: readonly GroundCut[];
  /** In performed order. */
  readonly stages: readonly Stage[];
  /** Of the reading's list. */
  readonly silences: ReadonlySet<number>;
}

/** First number of a sorted list from `least` up; null when all are smaller. */
export function firstFrom(sorted: readonly number[], least: number): number | null {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? 0) < least) low = middle + 1;
    else high = middle;
  }
  return sorted[low] ?? null;
}

/**
 * What a cut can change in a run: from where it begins to the first note after it, because a held note whose beginning
 * is cut is silent. Null where the cut takes nothing of the run.
 */
export function reachOf(run: GroundRun, cut: { readonly from: number; readonly to: number }) {
  const [from, landing] = [Math.max(cut.from, run.from), Math.min(cut.to, run.to)];
  if (from >= landing) return null;
  return { from, landing, to: firstFrom(run.onsets, landing) ?? run.to };
}

/** Groups that are joined two by two. */
class Groups {
  private readonly parents: number[];

  constructor(count: number) {
    this.parents = Array.from({ length: count }, (_, index) => index);
  }

  find(item: number): number {
    let root = item;
    while (this.parents[root] !== root) root = this.parents[root] ?? root;
    this.parents[item] = root;
    return root;
  }

  join(a: number, b: number): void {
    this.parents[this.find(a)] = this.find(b);
  }
}

interface Reach {
  readonly item: number;
  readonly from: number;
  readonly to: number;
}

/** What lies in a run: cuts first, then silences, each by its number among both. */
function findReaches(ground: Ground, run: GroundRun): Reach[] {
  const cuts = ground.cuts.flatMap((cut, item) => {
    const reach = reachOf(run, cut);
    return reach ? [{ item, from: reach.from, to: reach.to }] : [];
  });
  const rests = run.rests.map((rest: GroundRest) => {
    return { item: ground.cuts.length + rest.silence, from: rest.from, to: rest.to };
  });
  return [...cuts, ...rests].sort((a, b) => a.from - b.from);
}

function joinTouching(groups: Groups, reaches: readonly Reach[]): void {
  let last: Reach | null = null;
  for (const reach of reaches) {
    if (last && reach.from <= last.to) groups.join(last.item, reach.item);
    if (!last || reach.to > last.to) last = reach;
  }
}

/** @param silenceCount of the reading that the ground was laid from. */
export function findClusters(ground: Ground, silenceCount: number): Cluster[] {
  const groups = new Groups(ground.cuts.length + silenceCount);
  const reaches = ground.runs.map((run) => findReaches(ground, run));
  for (const list of reaches) joinTouching(groups, list);
  const byGroup = new Map<number, { cuts: GroundCut[]; reaches: Reach[][] }>();
  const groupOf = (item: number) => {
    const group = groups.find(item);
    const known = byGroup.get(group) ?? { cuts: [], reaches: ground.runs.map(() => []) };
    byGroup.set(group, known);
    return known;
  };
  for (const [item, cut] of ground.cuts.entries()) groupOf(item).cuts.push(cut);
  const withCuts = [...byGroup.values()];
  for (const [run, list] of reaches.entries()) {
    for (const reach of list) {
      if (byGroup.has(groups.find(reach.item))) groupOf(reach.item).reaches[run]?.push(reach);
    }
  }
  return withCuts
    .map(({ cuts, reaches: own }) => ({ cuts: sortCuts(cuts), own }))
    .sort((a, b) => (a.cuts[0]?.from ?? 0) - (b.cuts[0]?.from ?? 0))
    .map(({ cuts, own }) => {
      const silences = own
        .flat()
        .flatMap(({ item }) => (item < ground.cuts.length ? [] : [item - ground.cuts.length]));
      return { cuts, silences: new Set(silences), stages: findStages(ground, own) };
    });
}

const sortCuts = (cuts: readonly GroundCut[]) =>
  cuts.toSorted((a, b) => a.from - b.from || a.to - b.to || a.index - b.index);

function findStages(ground: Ground, own: readonly Reach[][]): Stage[] {
  return ground.runs.flatMap((run, index) => {
    const reaches = own[index] ?? [];
    if (reaches.length === 0) return [];
    const from = reaches.reduce((least, reach) => Math.min(least, reach.from), run.to);
    const to = reaches.reduce((most, reach) => Math.max(most, reach.to), run.from);
    const opensLeft = from === run.from && index > 0;
    const opensRight = to === run.to && index < ground.runs.length - 1;
    return [{ run: index, from, to, opensLeft, opensRight }];
  });
}
