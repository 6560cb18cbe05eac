import { PackedSlots } from "@/lib/harmony/packed-slots";
import type { Quarters } from "@/lib/score/quarters";
import { isEqualQuarters, writeQuarters } from "@/lib/score/quarters";
import { eachShared, type Matches, MatchList, matchCode, noMatches } from "./matches";
import type { SideHearer } from "./side-hearer";
import { likenessOf, type Window } from "./window";

/** Least likeness of two bars for them to say the same; see `findParallels`. */
const alike = 0.6;
/** Least mean likeness of the two bars that are compared on each side of a place. */
const alikeTogether = 0.7;
/** How like they are is told by the bar next to the place more than by the other: there the join is heard. Source: ours. */
const [ofNear, ofFar] = [2 / 3, 1 / 3];

/** Bars of one piece compared with each other from the same offset on, at all transpositions. */
class OffsetLikenesses {
  private readonly windows: readonly (Window | null)[];
  private readonly packed: PackedSlots;
  private readonly found = new MatchList();
  private readonly rows = new Map<number, Matches>();
  private readonly befores = new Map<number, Matches>();
  private readonly afters = new Map<number, Matches>();

  constructor(
    private readonly hearer: SideHearer,
    offset: Quarters,
  ) {
    const shift = hearer.ticks(offset);
    this.windows = hearer.score.bars.map((bar) => {
      if (!isEqualQuarters(bar.length, bar.metreLength)) return null;
      const from = hearer.ticks(bar.start) + shift;
      return hearer.window(from, from + hearer.ticks(bar.length));
    });
    this.packed = new PackedSlots(this.windows.map((window) => window?.pitchClasses ?? null));
  }

  likeness(bar: number, other: number, semitones: number): number {
    const [a, b] = [this.windows[bar], this.windows[other]];
    if (!a || !b || !this.haveEqualLengths(bar, other)) return 0;
    return a.weight === 0 && b.weight === 0 ? 1 : likenessOf(a, b, semitones);
  }

  /** Bars that say what this one says. */
  private row(bar: number): Matches {
    const known = this.rows.get(bar);
    if (known) return known;
    const row = this.compareWithAll(bar);
    this.rows.set(bar, row);
    return row;
  }

  private haveEqualLengths(bar: number, other: number): boolean {
    const [a, b] = [this.hearer.score.bars[bar], this.hearer.score.bars[other]];
    return a !== undefined && b !== undefined && isEqualQuarters(a.length, b.length);
  }

  private compareWithAll(bar: number): Matches {
    const weight = this.packed.weightOf(bar);
    if (weight === 0) return noMatches;
    const own = this.packed.raise(bar);
    for (let other = 0; other < this.windows.length; other += 1) {
      if (!this.packed.canBeAlike(weight, other, alike) || !this.haveEqualLengths(bar, other)) continue;
      for (let semitones = 0; semitones < 12; semitones += 1) {
        const likeness = this.packed.likeness(own, other, semitones, alike);
        if (likeness > 0) this.found.add(matchCode(other, semitones), likeness);
      }
    }
    return this.found.take();
  }

  /** Bars before which stands what stands before this one. */
  before(bar: number): Matches {
    return this.keep(this.befores, bar, -1);
  }

  /** Bars from which on is heard what is heard from this one on. */
  after(bar: number): Matches {
    return this.keep(this.afters, bar, 0);
  }

  private keep(kept: Map<number, Matches>, bar: number, first: -1 | 0): Matches {
    const known = kept.get(bar);
    if (known) return known;
    const found = this.findSurroundings(bar, first);
    kept.set(bar, found);
    return found;
  }

  /** The bar next to the place and the one beyond it, each alike and both together alike enough. */
  private findSurroundings(bar: number, first: -1 | 0): Matches {
    const way = first === 0 ? 1 : -1;
    const [near, far] = [this.row(bar + first), this.row(bar + first + way)];
    eachShared(far, near, -12 * way, (code, likenessOfFar, likenessOfNear) => {
      if ((likenessOfNear + likenessOfFar) / 2 < alikeTogether) return;
      this.found.add(code - 12 * first, ofNear * likenessOfNear + ofFar * likenessOfFar);
    });
    return this.found.take();
  }
}

/** Likenesses from any offset on; each is worked out when it is asked for. */
export class Likenesses {
  private readonly byOffset = new Map<string, OffsetLikenesses>();
  private last: { readonly offset: Quarters; readonly made: OffsetLikenesses } | null = null;

  constructor(private readonly hearer: SideHearer) {}

  from(offset: Quarters): OffsetLikenesses {
    // A search asks for the same offset very many times in a row.
    if (!this.last || !isEqualQuarters(this.last.offset, offset))
      this.last = { offset, made: this.find(offset) };
    return this.last.made;
  }

  private find(offset: Quarters): OffsetLikenesses {
    const name = writeQuarters(offset);
    const known = this.byOffset.get(name);
    if (known) return known;
    const made = new OffsetLikenesses(this.hearer, offset);
    this.byOffset.set(name, made);
    return made;
  }
}
