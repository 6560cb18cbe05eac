import type { Position } from "@/lib/score/position";
import { isEqualQuarters, type Quarters, writeQuarters } from "@/lib/score/quarters";
import { ChordSuccessions } from "./chord-successions";
import { lowerBound } from "./lower-bound";
import type { Side } from "./side";
import type { SideHearer } from "./side-hearer";
import { measureSuccession, successionFeatures } from "./succession-features";
import { successionWeights } from "./succession-weights";

const weights = Float64Array.from(successionFeatures, (name) => successionWeights[name]);

/** Fewer own places of a class than this are no measure; then all places at the offset are. */
const leastOfClass = 8;

/** Of places inside bars so many, evenly taken, are measure enough. */
const mostInsideBars = 96;

/** The piece's own places at one offset of its bars: how readily its sides follow one another there. */
export class OwnPlaces {
  readonly successions: ChordSuccessions;
  /** Sorted scores: of places where a phrase begins, of the others, and of all. */
  private readonly atStarts: readonly number[];
  private readonly inside: readonly number[];
  private readonly all: readonly number[];
  private readonly features = new Float64Array(successionFeatures.length);

  constructor(places: readonly { readonly before: Side; readonly after: Side; readonly begins: boolean }[]) {
    this.successions = new ChordSuccessions(
      places.map(({ before, after }) => ({ before: before.chord, after: after.chord })),
    );
    const scored = places.map(({ before, after, begins }) => ({
      begins,
      score: this.score(before, after, after.chord),
    }));
    const sorted = (wanted: (begins: boolean) => boolean) =>
      scored
        .filter(({ begins }) => wanted(begins))
        .map(({ score }) => score)
        .sort((a, b) => a - b);
    this.atStarts = sorted((begins) => begins);
    this.inside = sorted((begins) => !begins);
    this.all = sorted(() => true);
  }

  /**
   * How readily one side follows another: larger is smoother. Scores of one piece and one offset can be compared.
   *
   * @param own number of the chord that follows the first side in the piece.
   */
  score(before: Side, after: Side, own: number): number {
    measureSuccession(before, after, this.successions, own, this.features);
    let sum = 0;
    for (let f = 0; f < weights.length; f += 1) sum += (weights[f] as number) * (this.features[f] as number);
    return sum;
  }

  /** Share of the piece's own places of the same class that are rougher than a score, 0 to 1. */
  shareRougher(score: number, begins: boolean): number {
    const own = begins ? this.atStarts : this.inside;
    const measure = own.length >= leastOfClass ? own : this.all;
    // What differs by rounding only is equal.
    return measure.length === 0 ? 0.5 : lowerBound(measure, score - 1e-9) / measure.length;
  }
}

/** How readily one side follows another in one piece, against how readily its own bars follow one another. */
export class Smoothness {
  private readonly byOffset = new Map<string, OwnPlaces>();
  private last: { readonly offset: Quarters; readonly made: OwnPlaces } | null = null;

  /** @param beginsPhrase whether a phrase begins at a place: there the piece's own bar lines are rougher. */
  constructor(
    private readonly hearer: SideHearer,
    private readonly beginsPhrase: (position: Position) => boolean,
  ) {}

  at(offset: Quarters): OwnPlaces {
    // A search asks for the same offset very many times in a row.
    if (!this.last || !isEqualQuarters(this.last.offset, offset))
      this.last = { offset, made: this.find(offset) };
    return this.last.made;
  }

  private find(offset: Quarters): OwnPlaces {
    const name = writeQuarters(offset);
    const known = this.byOffset.get(name);
    if (known) return known;
    const made = new OwnPlaces(this.findPlaces(offset));
    this.byOffset.set(name, made);
    return made;
  }

  private findPlaces(offset: Quarters) {
    const { score, ticks } = this.hearer;
    const bars = score.bars.filter(
      (bar) =>
        !bar.isPickup && isEqualQuarters(bar.length, bar.metreLength) && ticks(offset) < ticks(bar.length),
    );
    const step = offset.num === 0 ? 1 : Math.ceil(bars.length / mostInsideBars);
    return bars.flatMap((bar, index) => {
      if (index % step !== 0) return [];
      const position = { barIndex: bar.index, offset };
      const [before, after] = [this.hearer.before(position), this.hearer.after(position)];
      return before && after ? [{ before, after, begins: this.beginsPhrase(position) }] : [];
    });
  }
}
