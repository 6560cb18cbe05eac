import {
  addToAll,
  type Choice,
  type ChoiceRow,
  type Choices,
  mergeChoices,
  onlyNoCuts,
} from "./combine-choices";
import type { Cluster, Stage } from "./find-clusters";
import type { Ground, GroundCut } from "./plan-ground";
import { passingState, RestScan, type ScanState, type WatchedRest } from "./rest-scan";
import type { KeptRests } from "./scan-stage";

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
  /** Of the rest that is watched, when it ended in between; 0 when nothing is missing, or none is watched. */
  readonly missing: number;
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

function isSameState(a: ScanState, b: ScanState): boolean {
  if (a === b) return true;
  for (let index = 0; index < a.length; index += 1) if (a[index] !== b[index]) return false;
  return true;
}

/** Rows of sets that have the same future: the first one, and more when there are any. */
interface Gathered {
  readonly since: number;
  readonly state: ScanState;
  readonly sets: Choices;
  readonly plus: Choice | null;
  more: ChoiceRow[] | null;
  /** Another one to which the same number leads. */
  readonly next: Gathered | undefined;
}

/** Brings together what has the same future. */
class Gathering {
  private readonly found = new Map<number, Gathered>();
  private readonly inOrder: Gathered[] = [];

  /** @param plus a cut that is added to all of the sets. */
  add(since: number, state: ScanState, sets: Choices, plus: Choice | null): void {
    const number = numberOf(since, state);
    const next = this.found.get(number);
    let known = next;
    while (known && (known.since !== since || !isSameState(known.state, state))) known = known.next;
    if (!known) {
      const own = state === passingState ? [...state] : state;
      const gathered = { since, state: own, sets, plus, more: null, next };
      this.found.set(number, gathered);
      this.inOrder.push(gathered);
    } else if (known.more) {
      known.more.push({ sets, plus });
    } else {
      known.more = [
        { sets: known.sets, plus: known.plus },
        { sets, plus },
      ];
    }
  }

  /** One group of all that has the same future, without the sets that are beaten. */
  groups(): SetGroup[] {
    return this.inOrder.map(({ since, state, sets, plus, more }) => {
      return { since, state, sets: more ? mergeChoices(more) : addToAll(sets, plus) };
    });
  }
}

/** Mostly another number for another future. */
function numberOf(since: number, state: ScanState): number {
  const [start, barStart, missing] = [state[0], state[1], state[6]] as [number, number, number];
  return (start + 31 * barStart + 7919 * since + 104_729 * missing) | 0;
}

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
  /** How often a state was looked at so far, for laws of how the work grows. */
  examined = 0;

  constructor(ground: Ground, cluster: Cluster, kept: KeptRests, watched: WatchedRest | null = null) {
    this.scan = new RestScan(ground, cluster, kept, watched);
    this.starts = groupByPlace(cluster.cuts, (cut) => cut.from);
    this.landings = groupByPlace(cluster.cuts, (cut) => cut.to);
    this.choices = new Map(cluster.cuts.map((cut) => [cut.index, toChoice(cut)]));
    this.beginning = { at: -1, place: -1, state: this.scan.start(), pending: new Map() };
  }

  /** Whether it tells how much is missing of the rest that is watched. */
  get canWatch(): boolean {
    return this.scan.canWatch;
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
    let groups: readonly SetGroup[] = [{ since: number, state: order.milestone.state, sets: onlyNoCuts }];
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
    const alike = new Gathering();
    for (const { since, state, sets } of groups) alike.add(since, this.scan.atEnd(state), sets, null);
    return alike
      .groups()
      .map(({ since, state, sets }) => ({ from: since, to, sets, missing: state[6] ?? 0 }));
  }

  private reach(
    groups: readonly SetGroup[],
    place: number,
    pending: Map<number, readonly SetGroup[]>,
    without: GroundCut | null,
  ): readonly SetGroup[] {
    const starts = this.starts.get(place)?.filter((cut) => cut !== without) ?? [];
    const landings = this.landings.get(place) ?? [];
    const stages = this.scan.notes.get(place) ?? [];
    let here = groups;
    // Starts come before landings: two cuts that touch are one cut whose join nobody has judged.
    if (starts.length > 0) {
      here = this.arriveAll(here, place);
      for (const cut of starts) pending.set(cut.index, here);
      // What is agreed is cut: nothing goes on playing here.
      if (starts.some(({ isAgreed }) => isAgreed)) here = [];
    }
    const all = new Gathering();
    this.examined += here.length;
    for (const { since, state, sets } of here) {
      const arrived = here === groups ? this.scan.at(state, place) : state;
      const next = this.playNotes(arrived, place, stages);
      if (next) all.add(since, next, sets, null);
    }
    for (const cut of landings) {
      const plus = this.choices.get(cut.index) ?? null;
      const land = this.scan.landing(cut, place);
      const under = pending.get(cut.index) ?? [];
      this.examined += under.length;
      for (const { since, state, sets } of under) {
        const next = this.playNotes(land(state), place, stages);
        if (next) all.add(since, next, sets, plus);
      }
      pending.delete(cut.index);
    }
    return all.groups();
  }

  private arriveAll(groups: readonly SetGroup[], place: number): readonly SetGroup[] {
    const all = new Gathering();
    for (const { since, state, sets } of groups) all.add(since, this.scan.at(state, place), sets, null);
    return all.groups();
  }

  private playNotes(state: ScanState | null, place: number, stages: readonly number[]): ScanState | null {
    let next = state;
    for (const stage of stages) next = next && this.scan.afterNote(next, place, stage);
    return next;
  }
}
