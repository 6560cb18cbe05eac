import type { Desk } from "@/app/_data/desk/desk";

/** The rehearsal letter that a bar lies after, or at; null before the first. */
export function lastLetter({ strip }: Pick<Desk, "strip">, barIndex: number): string | null {
  const bar = strip.bars.find((candidate) => candidate.barIndex === barIndex);
  return bar ? (strip.letters.findLast(({ at }) => at <= bar.from + 0.01)?.text ?? null) : null;
}
