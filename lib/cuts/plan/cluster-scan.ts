import { type Choice, type ChoiceRow, type Choices, mergeChoices, onlyNoCuts } from "./combine-choices";
import type { Cluster, Stage } from "./find-clusters";
import type { KeptRest } from "./kept-rests";
import type { Ground, GroundCut } from "./plan-ground";
import { RestScan, type ScanState } from "./rest-scan";

/** Sets of cuts made since a milestone that have the same future. */
interface SetGroup {
  /** Number of the milestone. */
  readonly since: number;
  readonly state: ScanState;
  readonly sets: Choices;
}

type PendingGroups = ReadonlyMap<number, readonly SetGroup[]>;

/**
 * A place where all sets have the same future, whatever was cut before: the soloist plays there. Sets begin anew; those that
 * are over it in a cut belong to the milestone before.
 */
export interface Milestone {
  /** Number of the place in the scan's list; -1 at the beginning. */
  readonly at: number;
  readonly place: number;
  readonly state: ScanState;
  /** What is under way in a cut, by the cut's index. */
  readonly pending: PendingGroups;
}

/** All sets from one milestone to another that play at none in between. */
export interface Edge {
  readonly from: number;
  readonly to: number;
  readonly sets: Choices;
}

/** How a scan goes. */
interface ScanOrder {
  /** Where it begins. */
  readonly milestone: Milestone;
  readonly number: number;
  /** Sets begin anew at further milestones before this place; from there on it ends when all have come to one. */
  readonly beginsUntil: number;
  readonly without: GroundCut | null;
  /** Whether a place is a milestone. */
  readonly isMilestone: (place: number, setCount: number) => boolean;
}

function compareStates(a: ScanState, b: ScanState): number {
  if (a === b) return 0;
  for (let index = 0; index < a.length; index += 1) {
    const difference = (a[index] as number) - (b[index] as number);
    if (difference !== 0) return difference;
  }
  return 0;
}

/** A group, with a cut that is added to all of its sets. */
interface Arrival {
  readonly since: number;
  readonly state: ScanState;
  readonly row: ChoiceRow;
}

const compareArrivals = (a: Arrival, b: Arrival): number =>
  a.since - b.since || compareStates(a.state, b.state);

/** One group of all that has the same future, without the sets that are beaten. */
function gather(arrivals: Arrival[]): SetGroup[] {
  if (arrivals.length > 1) arrivals.sort(compareArrivals);
  const groups: SetGroup[] = [];
  for (let first = 0; first < arrivals.length; ) {
    const { since, state } = arrivals[first] as Arrival;
    let end = first + 1;
    while (
      end < arrivals.length &&
      compareArrivals(arrivals[first] as Arrival, arrivals[end] as Arrival) === 0
    )
      end += 1;
    const sets = mergeChoices(arrivals.slice(first, end).map(({ row }) => row));
    groups.push({ since, state, sets });
    first = end;
  }
  return groups;
}

const arrive = ({ since, sets }: SetGroup, state: ScanState, plus: Choice | null = null): Arrival => ({
  since,
  state,
  row: { sets, plus },
});

const toChoice = (cut: GroundCut): Choice => ({
  savedMilliseconds: cut.savedMilliseconds,
  cost: cut.cost,
  count: cut.isAgreed ? 0 : 1,
  cuts: cut.index,
});

function groupByPlace(cuts: readonly GroundCut[], place: (cut: GroundCut) => number) {
  const groups = new Map<number, GroundCut[]>();
  for (const cut of cuts) {
    const list = groups.get(place(cut));
    if (list) list.push(cut);
    else groups.set(place(cut), [cut]);
  }
  return groups;
}

/**
 * Reads the page of a cluster from left to right with all sets of cuts made so far. Sets with the same future (nothing
 * known of the rest they stand in, or the same) are compared, and the beaten ones dropped: so this is exact.
 */
export class ClusterScan {
  private readonly scan: RestScan;
  private readonly starts: ReadonlyMap<number, readonly GroundCut[]>;
  private readonly landings: ReadonlyMap<number, readonly GroundCut[]>;
  private readonly choices: ReadonlyMap<number, Choice>;
  readonly beginning: Milestone;

  constructor(ground: Ground, cluster: Cluster, kept: ReadonlyMap<number, KeptRest>) {
    this.scan = new RestScan(ground, cluster, kept);
    this.starts = groupByPlace(cluster.cuts, (cut) => cut.from);
    this.landings = groupByPlace(cluster.cuts, (cut) => cut.to);
    this.choices = new Map(cluster.cuts.map((cut) => [cut.index, toChoice(cut)]));
    this.beginning = { at: -1, place: -1, state: this.scan.start(), pending: new Map() };
  }

  /** Whether states of another scan of the same cluster are states of this one. */
  isAlike(other: ClusterScan): boolean {
    const name = ({ run, from, to }: Stage) => `${run} ${from} ${to}`;
    return this.scan.stages.map(name).join() === other.scan.stages.map(name).join();
  }

  /** Whether all sets have the same future at a place, and whether a needed rest ends there. */
  settles(place: number): { readonly endsNeed: boolean } | null {
    return this.scan.settles(place);
  }

  /**
   * @param onMilestone is given each milestone as it is passed, its number, and the edges that lead to it; the end of
   *   the cluster is the last one.
   */
  run(
    order: ScanOrder,
    onMilestone: (milestone: Milestone, number: number, edges: readonly Edge[]) => void,
  ): void {
    const { places } = this.scan;
    let { number } = order;
    const pending = new Map(order.milestone.pending);
    let groups: SetGroup[] = [{ since: number, state: order.milestone.state, sets: onlyNoCuts }];
    for (let at = order.milestone.at + 1; at < places.length; at += 1) {
      const place = places[at] as number;
      groups = this.reach(groups, place, pending, order.without);
      const setCount = groups.reduce((sum, { sets }) => sum + sets.length, 0);
      if (!order.isMilestone(place, setCount)) continue;
      const [first] = groups;
      const state = first?.state ?? order.milestone.state;
      number += 1;
      const milestone = { at, place, state, pending: new Map(pending) };
      onMilestone(milestone, number, this.findEdges(groups, number));
      groups = place < order.beginsUntil ? [{ since: number, state, sets: onlyNoCuts }] : [];
      if (groups.length === 0 && pending.size === 0) return;
    }
    const kept = groups.filter(({ state }) => this.scan.isKept(state));
    const end = { at: places.length, place: Number.POSITIVE_INFINITY, state: [], pending };
    onMilestone(end, number + 1, this.findEdges(kept, number + 1));
  }

  private findEdges(groups: readonly SetGroup[], to: number): Edge[] {
    const alike = groups.map((group) => arrive(group, []));
    return gather(alike).map(({ since, sets }) => ({ from: since, to, sets }));
  }

  private reach(
    groups: readonly SetGroup[],
    place: number,
    pending: Map<number, readonly SetGroup[]>,
    without: GroundCut | null,
  ): SetGroup[] {
    let here = groups.map((group) => arrive(group, this.scan.at(group.state, place)));
    const starts = this.starts.get(place)?.filter((cut) => cut !== without) ?? [];
    const landings = this.landings.get(place) ?? [];
    // Starts come before landings: two cuts that touch are one cut whose join nobody has judged.
    if (starts.length > 0) {
      const departing = gather(here);
      for (const cut of starts) {
        const gone = departing.flatMap((group) => this.depart(group, cut));
        if (gone.length > 0) pending.set(cut.index, gone);
      }
      // What is agreed is cut: nothing goes on playing here.
      const isOver = starts.some(({ isAgreed }) => isAgreed);
      here = isOver ? [] : departing.map((group) => arrive(group, group.state));
    }
    for (const cut of landings) {
      const plus = this.choices.get(cut.index) ?? null;
      const landed = pending.get(cut.index) ?? [];
      here.push(...landed.map((group) => arrive(group, this.scan.at(group.state, place), plus)));
      pending.delete(cut.index);
    }
    return this.playNote(here, place);
  }

  private depart(group: SetGroup, cut: GroundCut): SetGroup[] {
    const state = this.scan.afterCut(group.state, cut);
    return state ? [{ ...group, state }] : [];
  }

  private playNote(here: Arrival[], place: number): SetGroup[] {
    const stages = this.scan.notes.get(place);
    if (!stages) return gather(here);
    const played = here.flatMap((arrival): Arrival[] => {
      let state: ScanState | null = arrival.state;
      for (const stage of stages) state = state && this.scan.afterNote(state, place, stage);
      return state ? [{ ...arrival, state }] : [];
    });
    return gather(played);
  }
}
