import { addChoices, type Choice, type Choices, noCuts } from "./combine-choices";
import type { Cluster } from "./find-clusters";
import type { KeptRest } from "./kept-rests";
import type { Ground, GroundCut } from "./plan-ground";
import { RestScan, type ScanState } from "./rest-scan";

/** A set of cuts made since a milestone. */
interface Label {
  /** The milestone. */
  readonly since: number;
  readonly saved: number;
  readonly cost: number;
  readonly count: number;
  readonly state: ScanState;
  readonly cut: number;
  readonly before: Label | null;
}

function compareStates(a: ScanState, b: ScanState): number {
  for (let index = 0; index < a.length; index += 1) {
    const difference = (a[index] as number) - (b[index] as number);
    if (difference !== 0) return difference;
  }
  return 0;
}

/** Same milestone and state together; in each of them from the most saved down, the cheapest first, then the fewest cuts. */
const compareLabels = (a: Label, b: Label): number =>
  a.since - b.since ||
  (a.state === b.state ? 0 : compareStates(a.state, b.state)) ||
  b.saved - a.saved ||
  a.cost - b.cost ||
  a.count - b.count;

/** Of sorted labels with the same future those that save more or cost less than all others. */
function dropBeaten(sorted: readonly Label[]): Label[] {
  const kept: Label[] = [];
  let last: Label | null = null;
  for (const label of sorted) {
    const isSameState: boolean =
      last !== null &&
      last.since === label.since &&
      (last.state === label.state || compareStates(last.state, label.state) === 0);
    if (isSameState && last !== null && label.cost >= last.cost) continue;
    kept.push(label);
    last = label;
  }
  return kept;
}

function merge(a: readonly Label[], b: readonly Label[]): Label[] {
  const merged: Label[] = [];
  let [i, j] = [0, 0];
  while (i < a.length && j < b.length) {
    const [left, right] = [a[i] as Label, b[j] as Label];
    if (compareLabels(left, right) <= 0) {
      merged.push(left);
      i += 1;
    } else {
      merged.push(right);
      j += 1;
    }
  }
  for (; i < a.length; i += 1) merged.push(a[i] as Label);
  for (; j < b.length; j += 1) merged.push(b[j] as Label);
  return dropBeaten(merged);
}

function addCut(scan: RestScan, labels: readonly Label[], cut: GroundCut): Label[] {
  const made = labels.flatMap((label): Label[] => {
    const state = scan.afterCut(label.state, cut);
    if (!state) return [];
    const [saved, cost] = [label.saved + cut.savedMilliseconds, label.cost + cut.cost];
    const { since, count } = label;
    return [{ since, saved, cost, count: count + 1, state, cut: cut.index, before: label }];
  });
  return made.sort(compareLabels);
}

/** Labels that no longer need to be told apart when a place is reached. */
function playOn(scan: RestScan, labels: readonly Label[], place: number): readonly Label[] {
  let isChanged = false;
  const reached = labels.map((label) => {
    const state = scan.at(label.state, place);
    if (state === label.state) return label;
    isChanged = true;
    return { ...label, state };
  });
  return isChanged ? dropBeaten(reached.sort(compareLabels)) : labels;
}

function playNote(
  scan: RestScan,
  labels: readonly Label[],
  place: number,
  stages: readonly number[],
): Label[] {
  const played = labels.flatMap((label): Label[] => {
    let state: ScanState | null = label.state;
    for (const stage of stages) state = state && scan.afterNote(state, place, stage);
    if (!state) return [];
    return state === label.state ? [label] : [{ ...label, state }];
  });
  return dropBeaten(played.sort(compareLabels));
}

/** The cuts of a label, as a choice. */
function toChoice(label: Label): Choice {
  let cuts: Choice["cuts"] = null;
  for (let at: Label | null = label; at; at = at.before) {
    if (at.cut >= 0) cuts = cuts === null ? at.cut : [at.cut, cuts];
  }
  return { savedMilliseconds: label.saved, cost: label.cost, count: label.count, cuts };
}

const group = (cuts: readonly GroundCut[], place: (cut: GroundCut) => number) => {
  const groups = new Map<number, GroundCut[]>();
  for (const cut of cuts) groups.set(place(cut), [...(groups.get(place(cut)) ?? []), cut]);
  return groups;
};

/**
 * Where all sets have the same future: the soloist plays there, whatever was cut before. What leads up to it is summed up
 * in the choices of the milestone, and the sets begin anew; a cut that goes over it belongs to the milestone before.
 */
class Milestones {
  private readonly choices: Choices[] = [[noCuts]];

  get last(): number {
    return this.choices.length - 1;
  }

  /** @param labels whose states do not matter any more. */
  sumUp(labels: readonly Label[]): Choices {
    const since = new Map<number, Label[]>();
    const sameState = labels.map((label) => ({ ...label, state: noState })).sort(compareLabels);
    for (const label of dropBeaten(sameState)) {
      const list = since.get(label.since);
      if (list) list.push(label);
      else since.set(label.since, [label]);
    }
    return addChoices(
      [...since].map(([milestone, list]) => {
        return [this.choices[milestone] ?? [noCuts], list.map(toChoice).reverse()] as const;
      }),
    );
  }

  add(labels: readonly Label[]): void {
    this.choices.push(this.sumUp(labels));
  }
}

const noState: ScanState = [];

/** Fewer labels are carried on as they are: summing up has its price too. */
const fewLabels = 24;

/**
 * All sets of a cluster's cuts that nothing beats: none saves as much for less. Every kept rest is kept; between two cuts
 * something is played.
 *
 * The page is read from left to right with all sets made so far. Sets with the same future (nothing known of the rest
 * they stand in, or the same) are compared, and the beaten ones dropped: so this is exact. The work grows with the
 * cuts and with the different lengths that rests can have, at most one for each millisecond of the longest.
 *
 * @returns from the least saved (no cut) to the most.
 */
export function planCluster(ground: Ground, cluster: Cluster, kept: ReadonlyMap<number, KeptRest>): Choices {
  const scan = new RestScan(ground, cluster, kept);
  const starts = group(cluster.cuts, (cut) => cut.from);
  const landings = group(cluster.cuts, (cut) => cut.to);
  const places = [...new Set([...starts.keys(), ...landings.keys(), ...scan.notes.keys()])].sort(
    (a, b) => a - b,
  );
  const pending = new Map<number, Label[]>();
  const milestones = new Milestones();
  const begin = (state: ScanState): Label[] => [
    { since: milestones.last, saved: 0, cost: 0, count: 0, state, cut: -1, before: null },
  ];
  let labels = begin(scan.start());
  for (const place of places) {
    // Starts come before landings: two cuts that touch are one cut whose join nobody has judged.
    for (const cut of starts.get(place) ?? []) pending.set(cut.index, addCut(scan, labels, cut));
    for (const cut of landings.get(place) ?? []) {
      labels = merge(playOn(scan, labels, place), pending.get(cut.index) ?? []);
      pending.delete(cut.index);
    }
    const stages = scan.notes.get(place);
    if (stages) labels = playNote(scan, labels, place, stages);
    const [first] = labels;
    if (first && labels.length > fewLabels && scan.isSettled(place)) {
      milestones.add(labels);
      labels = begin(first.state);
    }
  }
  return milestones.sumUp(labels.filter((label) => scan.isKept(label.state)));
}
