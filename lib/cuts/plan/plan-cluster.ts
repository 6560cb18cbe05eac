import { ClusterScan, type Edge, type Milestone } from "./cluster-scan";
import { addChoices, type Choices, onlyNoCuts } from "./combine-choices";
import { type Cluster, reachOf } from "./find-clusters";
import type { KeptRest } from "./kept-rests";
import type { Ground, GroundCut } from "./plan-ground";

/** Two lists of sets, each of one going with each of the other. */
export type ChoicePair = readonly [Choices, Choices];

/** Fewer sets are carried on as they are: summing up has its price too. */
const fewSets = 24;

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
    kept: ReadonlyMap<number, KeptRest>,
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
  private replan(scan: ClusterScan, from: number, until: number, without: GroundCut | null): ChoicePair[] {
    const isAlike = scan === this.scan || scan.isAlike(this.scan);
    const known = new Set(isAlike ? this.milestones.map(({ place }) => place) : []);
    const before = isAlike ? this.milestones.findLastIndex(({ place }) => place < from) : 0;
    const number = Math.max(0, before);
    const milestone = isAlike ? (this.milestones[number] as Milestone) : scan.beginning;
    const upTo = this.upTo.slice(0, number + 1);
    const found: ChoicePair[] = [];
    const isMilestone = (place: number) => known.has(place);
    scan.run({ milestone, number, beginsUntil: until, without, isMilestone }, ({ place }, to, edges) => {
      const sets = addChoices(edges.map((edge) => [upTo[edge.from] ?? [], edge.sets] as const));
      if (place < until) upTo[to] = sets;
      else if (sets.length > 0) found.push([sets, isAlike ? this.from(to) : onlyNoCuts]);
    });
    return found;
  }

  /** All sets without one cut. */
  without(cut: GroundCut): ChoicePair[] {
    return this.replan(this.scan, cut.from, cut.from, cut);
  }

  /** All sets when something else is kept of some silences. */
  withRests(silences: ReadonlySet<number>, kept: ReadonlyMap<number, KeptRest>): ChoicePair[] {
    const scan = new ClusterScan(this.ground, this.cluster, kept);
    const places = this.ground.runs.flatMap((run) =>
      run.rests.filter(({ silence }) => silences.has(silence)).map((rest) => ({ run, rest })),
    );
    const [only, ...others] = places;
    // A rest that is played twice, or goes over a jump, is in several places: everything may be different.
    if (!only || others.length > 0) return this.replan(scan, -1, Number.POSITIVE_INFINITY, null);
    const { run, rest } = only;
    const touching = this.cluster.cuts.filter((cut) => {
      const reach = reachOf(run, cut);
      return reach !== null && reach.from <= rest.to && reach.to >= rest.from;
    });
    const from = touching.reduce((first, cut) => Math.min(first, cut.from), rest.from);
    return this.replan(scan, from, rest.to, null);
  }
}
