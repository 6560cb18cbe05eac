import type { Quarters } from "@/lib/score/quarters";
import { isEqualQuarters, writeQuarters } from "@/lib/score/quarters";
import { likenessFrom, type PackedWindow, packWindow } from "./packed-window";
import type { SideHearer } from "./side-hearer";
import { likenessOf, type Window } from "./window";

/** Least likeness of two bars for them to say the same; see `findParallels`. */
const alike = 0.6;
/** Least mean likeness of the two bars on one side of a place. */
const alikeTogether = 0.7;
/** Bars compared on each side of a place. */
const barsCompared = 2;

/** By bar × 12 + semitones: how like a bar's surroundings are, raised by so much; places that are not alike lack. */
export type Matches = ReadonlyMap<number, number>;

export const matchCode = (barIndex: number, semitones: number): number => barIndex * 12 + semitones;

const none: Matches = new Map();

/** Bars of one piece compared with each other from the same offset on, at all transpositions. */
class OffsetLikenesses {
  private readonly windows: readonly (Window | null)[];
  private readonly packed: readonly (PackedWindow | null)[];
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
    this.packed = this.windows.map((window) => window && packWindow(window));
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
    const own = this.packed[bar];
    if (!own || own.weight === 0) return none;
    const row = new Map<number, number>();
    for (const [other, candidate] of this.packed.entries()) {
      // However well they lie, no more than the lighter one's bits can be shared.
      const isFar =
        !candidate ||
        candidate.weight < alike * own.weight ||
        own.weight < alike * candidate.weight ||
        !this.haveEqualLengths(bar, other);
      if (isFar) continue;
      for (let semitones = 0; semitones < 12; semitones += 1) {
        const likeness = likenessFrom(own, candidate, semitones, alike);
        if (likeness > 0) row.set(matchCode(other, semitones), likeness);
      }
    }
    return row;
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

  private findSurroundings(bar: number, first: -1 | 0): Matches {
    const way = first === 0 ? 1 : -1;
    const rows = Array.from({ length: barsCompared }, (_, step) => this.row(bar + first + way * step));
    const found = new Map<number, number>();
    for (const [code, likeness] of rows[0] ?? none) {
      let sum = likeness;
      for (const [step, row] of rows.entries()) {
        if (step > 0) sum += row.get(code + 12 * way * step) ?? Number.NEGATIVE_INFINITY;
      }
      if (sum / barsCompared >= alikeTogether) found.set(code - 12 * first, sum / barsCompared);
    }
    return found;
  }
}

/** Likenesses from any offset on; each is worked out when it is asked for. */
export class Likenesses {
  private readonly byOffset = new Map<string, OffsetLikenesses>();

  constructor(private readonly hearer: SideHearer) {}

  from(offset: Quarters): OffsetLikenesses {
    const name = writeQuarters(offset);
    const known = this.byOffset.get(name);
    if (known) return known;
    const made = new OffsetLikenesses(this.hearer, offset);
    this.byOffset.set(name, made);
    return made;
  }
}
