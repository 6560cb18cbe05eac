import { ClusterScan, type Edge, type Milestone } from "./cluster-scan";
import { addChoices, type Choices, onlyNoCuts } from "./combine-choices";
import { type Cluster, reachOf } from "./find-clusters";
import type { Ground, GroundCut } from "./plan-ground";
import type { WatchedRest } from "./rest-scan";
import type { KeptRests } from "./scan-stage";

/** Two lists of sets, each of one going with each of the other. */
export type ChoicePair = readonly [Choices, Choices];

/** Pairs by what is missing of a rest that is watched. */
export interface MissingRest {
  readonly missing: number;
  readonly pair: ChoicePair;
}

/** Part of a cluster, by places. */
interface Stretch {
  readonly from: number;
  readonly until: number;
}

/** Fewer sets are carried on as they are: summing up has its price too. */
const fewSets = 24;

function groupByMissing(edges: readonly Edge[]): ReadonlyMap<number, readonly Edge[]> {
  const groups = new Map<number, Edge[]>();
  for (const edge of edges) {
    const list = groups.get(edge.missing);
    if (list) list.push(edge);
    else groups.set(edge.missing, [edge]);
  }
  return groups;
}

/**
 * All sets of a cluster's cuts that nothing beats: none saves as much for less. Every kept rest is kept; between two cuts
 * something is played; what is agreed is cut.
 *
 * The page is divided by milestones (see `Milestone`), and what may happen from one to another is kept: a plan that
 * differs in one place is made again there alone. The work grows with the cuts and with the different lengths that
 * rests can have, at most one for each millisecond of the longest.
 */
export class ClusterPlan {
  private readonly scan: ClusterScan;
  private readonly milestones: Milestone[];
  private readonly edges: Edge[] = [];
  /** The unbeaten sets up to each milestone. */
  private readonly upTo: Choices[] = [onlyNoCuts];
  private onwards: Choices[] | null = null;

  constructor(
    private readonly ground: Ground,
    readonly cluster: Cluster,
    kept: KeptRests,
  ) {
    this.scan = new ClusterScan(ground, cluster, kept);
    this.milestones = [this.scan.beginning];
    const isMilestone = (place: number, setCount: number) => {
      const settled = this.scan.settles(place);
      return settled !== null && (settled.endsNeed || setCount > fewSets);
    };
    const milestone = this.scan.beginning;
    const beginsUntil = Number.POSITIVE_INFINITY;
    this.scan.run(
      { milestone, number: 0, beginsUntil, without: null, isMilestone },
      (milestone, number, edges) => {
        this.milestones.push(milestone);
        this.edges.push(...edges);
        this.upTo[number] = addChoices(edges.map(({ from, sets }) => [this.upTo[from] ?? [], sets] as const));
      },
    );
  }

  /** How often a state was looked at, for laws of how the work grows. */
  get examined(): number {
    return this.scan.examined;
  }

  /** From the least saved (no cut but those that are agreed) to the most. */
  get choices(): Choices {
    return this.upTo.at(-1) ?? [];
  }

  /** The unbeaten sets from each milestone to the end of the cluster. */
  private from(number: number): Choices {
    if (!this.onwards) {
      const onwards: Choices[] = [];
      const last = this.milestones.length - 1;
      onwards[last] = onlyNoCuts;
      for (let at = last - 1; at >= 0; at -= 1) {
        const edges = this.edges.filter(({ from }) => from === at);
        onwards[at] = addChoices(edges.map(({ to, sets }) => [sets, onwards[to] ?? []] as const));
      }
      this.onwards = onwards;
    }
    return this.onwards[number] ?? [];
  }

  /**
   * The sets when something is different in one stretch: pairs of what leads up to a milestone behind it and what follows
   * there, whose sums are all sets.
   *
   * @param scan of the same cluster, with other rests to be kept in the stretch.
   * @param from where the first cut begins that it makes a difference to; `until` no milestone lies in between.
   */
  private replan(scan: ClusterScan, { from, until }: Stretch, without: GroundCut | null): MissingRest[] {
    const isAlike = scan === this.scan || scan.isAlike(this.scan);
    const known = new Set(isAlike ? this.milestones.map(({ place }) => place) : []);
    const before = isAlike ? this.milestones.findLastIndex(({ place }) => place < from) : 0;
    const number = Math.max(0, before);
    const milestone = isAlike ? (this.milestones[number] as Milestone) : scan.beginning;
    const upTo = this.upTo.slice(0, number + 1);
    const found: MissingRest[] = [];
    const isMilestone = (place: number) => known.has(place);
    scan.run({ milestone, number, beginsUntil: until, without, isMilestone }, ({ place }, to, edges) => {
      for (const [missing, alike] of groupByMissing(edges)) {
        const sets = addChoices(alike.map((edge) => [upTo[edge.from] ?? [], edge.sets] as const));
        if (place < until) upTo[to] = sets;
        else if (sets.length > 0) found.push({ missing, pair: [sets, isAlike ? this.from(to) : onlyNoCuts] });
      }
    });
    return found;
  }

  /** All sets without one cut. */
  without(cut: GroundCut): ChoicePair[] {
    return this.replan(this.scan, { from: cut.from, until: cut.from }, cut).map(({ pair }) => pair);
  }

  /** All sets when something else is kept of some silences. */
  withRests(silences: ReadonlySet<number>, kept: KeptRests): ChoicePair[] {
    const scan = new ClusterScan(this.ground, this.cluster, kept);
    const stretch = this.findStretch(silences) ?? { from: -1, until: Number.POSITIVE_INFINITY };
    return this.replan(scan, stretch, null).map(({ pair }) => pair);
  }

  /**
   * All sets, by what is missing of a rest that is let go; null where nobody can tell before all is planned.
   *
   * @param kept of all other needs.
   */
  byMissing(watched: WatchedRest, kept: KeptRests): MissingRest[] | null {
    const stretch = this.findStretch(new Set([watched.silence]));
    const scan = new ClusterScan(this.ground, this.cluster, kept, watched);
    return stretch && scan.canWatch ? this.replan(scan, stretch, null) : null;
  }

  /** Where some silences make a difference; null when that may be everywhere. */
  private findStretch(silences: ReadonlySet<number>): Stretch | null {
    const places = this.ground.runs.flatMap((run) =>
      run.rests.filter(({ silence }) => silences.has(silence)).map((rest) => ({ run, rest })),
    );
    const [only, ...others] = places;
    // A rest that is played twice, or goes over a jump, is in several places: everything may be different.
    if (!only || others.length > 0) return null;
    const { run, rest } = only;
    const touching = this.cluster.cuts.filter((cut) => {
      const reach = reachOf(run, cut);
      return reach !== null && reach.from <= rest.to && reach.to >= rest.from;
    });
    const from = touching.reduce((first, cut) => Math.min(first, cut.from), rest.from);
    return { from, until: rest.to };
  }
}
