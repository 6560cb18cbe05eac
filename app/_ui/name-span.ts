import type { PositionTerms } from "@/lib/edition/position-terms";

/** A bar of the written order. */
export interface NamedBar {
  readonly label: string;
  /** In quarters, as text. */
  readonly length: string;
  /** Offsets of its beats in quarters as text, the bar line ("0") first. */
  readonly beats: readonly string[];
}

/** "bar 85", "bars 85–96". */
export function nameBars(
  bars: readonly Pick<NamedBar, "label">[],
  { firstBar, lastBar }: { firstBar: number; lastBar: number },
): string {
  const [first, last] = [bars[firstBar]?.label ?? "", bars[lastBar]?.label ?? ""];
  return firstBar === lastBar ? `bar ${first}` : `bars ${first}–${last}`;
}

/**
 * What lies between two places, by printed numbers: "bar 9", "bars 9–16", and with beats where an end lies inside a bar:
 * "bar 9 beat 3 to bar 17 beat 1". The end is the first place played again.
 */
export function nameSpan(bars: readonly NamedBar[], from: PositionTerms, to: PositionTerms): string {
  const isEnd = to.barIndex === bars.length - 1 && to.offset === bars[to.barIndex]?.length;
  const lastBar = isEnd ? to.barIndex : to.barIndex - 1;
  const isWhole = from.offset === "0" && (to.offset === "0" || isEnd) && lastBar >= from.barIndex;
  if (isWhole) return nameBars(bars, { firstBar: from.barIndex, lastBar });
  return `${namePlace(bars, from, true)} to ${isEnd ? "the end" : namePlace(bars, to, true)}`;
}

/** "bar 31", "bar 31 beat 2". @param hasBeat also the first beat is named. */
export function namePlace(bars: readonly NamedBar[], at: PositionTerms, hasBeat = false): string {
  const bar = bars[at.barIndex];
  const label = bar?.label ?? "";
  const name = label === "" ? `the bar after ${bars[at.barIndex - 1]?.label ?? "the start"}` : `bar ${label}`;
  if (at.offset === "0") return hasBeat ? `${name} beat 1` : name;
  const beat = bar?.beats.indexOf(at.offset) ?? -1;
  return beat < 0 ? `${name}, ${at.offset} quarters in` : `${name} beat ${beat + 1}`;
}
