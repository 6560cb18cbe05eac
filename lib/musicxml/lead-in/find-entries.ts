import type { Part } from "@/lib/score/part";
import { isPlayed } from "@/lib/score/playing-spans";
import type { Position } from "@/lib/score/position";
import { compareQuarters, noQuarters, type Quarters, subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** Where the soloist comes in after a rest. */
export interface Entry {
  readonly at: Position;
  /** Wholly silent bars before the bar of the entry. */
  readonly restBars: number;
}

/** The entries of a part after at least so many silent bars, in written order. The start of the piece counts too. */
export function findEntries(score: Score, part: Part, minimalRestBars: number): Entry[] {
  const firstOnsets = new Map<number, Quarters>();
  for (const note of part.notes) {
    if (!isPlayed(note)) continue;
    const known = firstOnsets.get(note.barIndex);
    if (!known || compareQuarters(note.onset, known) < 0) firstOnsets.set(note.barIndex, note.onset);
  }
  const entries: Entry[] = [];
  let restBars = 0;
  for (const bar of score.bars) {
    const onset = firstOnsets.get(bar.index);
    if (!onset) restBars += 1;
    else {
      const at = { barIndex: bar.index, offset: subtractQuarters(onset, bar.start) };
      if (restBars >= minimalRestBars) entries.push({ at, restBars });
      restBars = 0;
    }
  }
  return entries;
}

/** The last bar and a half or two before an entry: two bars, or one and what the bar of the entry has before it. */
export function leadInStart({ at, restBars }: Entry): Position {
  const bars = Math.min(restBars, at.offset.num > 0 ? 1 : 2);
  return { barIndex: at.barIndex - bars, offset: noQuarters };
}
