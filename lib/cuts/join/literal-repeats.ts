import type { Position } from "@/lib/score/position";
import { isEqualQuarters } from "@/lib/score/quarters";
import type { SideHearer } from "./side-hearer";

/** Bars by index, end exclusive, each of which says to the note what the bar at one distance says. */
interface EqualRun {
  readonly from: number;
  readonly to: number;
}

/** What begins in each bar, as a number: equal numbers, equal bars. A bar in which nothing begins is like no other. */
function numberBars({ score, ticks, lanes }: SideHearer): Int32Array {
  const texts: string[][] = score.bars.map(() => []);
  const starts = score.bars.map(({ start }) => ticks(start));
  let bar = 0;
  for (const { onset, end, lane, midi } of lanes.notes) {
    while (bar + 1 < starts.length && (starts[bar + 1] as number) <= onset) bar += 1;
    const start = starts[bar] as number;
    texts[bar]?.push(`${onset - start} ${end - start} ${lane} ${midi}`);
  }
  const numbers = new Map<string, number>();
  return Int32Array.from(texts, (notes, index) => {
    const text = notes.length === 0 ? `silent ${index}` : notes.sort().join("|");
    const number = numbers.get(text) ?? numbers.size;
    numbers.set(text, number);
    return number;
  });
}

/**
 * Where a passage comes twice in a row, note for note. Leaving out either statement, or the end of one and the beginning
 * of the other, leaves the same music.
 */
export class LiteralRepeats {
  /** By length of the passage in bars. */
  private readonly runs = new Map<number, EqualRun[]>();

  constructor(hearer: SideHearer) {
    const numbers = numberBars(hearer);
    const { bars } = hearer.score;
    const areEqual = (bar: number, distance: number) => {
      const [a, b] = [bars[bar], bars[bar + distance]];
      return numbers[bar] === numbers[bar + distance] && a && b && isEqualQuarters(a.length, b.length);
    };
    for (let distance = 1; 2 * distance <= bars.length; distance += 1) {
      let from = 0;
      for (let bar = 0; bar + distance <= bars.length; bar += 1) {
        if (bar + distance < bars.length && areEqual(bar, distance)) continue;
        if (bar - from >= distance) this.add(distance, { from, to: bar });
        from = bar + 1;
      }
    }
  }

  private add(distance: number, run: EqualRun): void {
    const runs = this.runs.get(distance);
    if (runs) runs.push(run);
    else this.runs.set(distance, [run]);
  }

  /** Whether a cut leaves out one of two equal statements that follow each other. */
  covers(from: Position, to: Position): boolean {
    if (!isEqualQuarters(from.offset, to.offset)) return false;
    const lastBar = from.offset.num === 0 ? from.barIndex : from.barIndex + 1;
    const runs = this.runs.get(to.barIndex - from.barIndex) ?? [];
    return runs.some((run) => run.from <= from.barIndex && lastBar <= run.to);
  }
}
