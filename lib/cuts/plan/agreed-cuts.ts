import type { CutSpan } from "@/lib/score/cut-span";
import { onsetOf } from "@/lib/score/onset-of";
import { compareQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { nameCut } from "../name-cut";

/**
 * Agreed cuts as separate spans in written order, for planning: those that touch or overlap leave out one stretch together.
 *
 * @throws RangeError if a cut lies outside the piece or ends before it begins.
 */
export function mergeAgreed(score: Score, agreed: readonly CutSpan[]): CutSpan[] {
  const timed = agreed.map((cut) => ({ cut, from: onsetOf(score, cut.from), to: onsetOf(score, cut.to) }));
  const wrong = timed.find(({ from, to }) => compareQuarters(from, to) > 0);
  if (wrong) throw new RangeError(`An agreed cut ends before it begins: ${nameCut(score, wrong.cut)}`);
  const merged: typeof timed = [];
  for (const span of timed.toSorted((a, b) => compareQuarters(a.from, b.from))) {
    if (compareQuarters(span.from, span.to) === 0) continue;
    const last = merged.at(-1);
    if (!last || compareQuarters(span.from, last.to) > 0) merged.push(span);
    else if (compareQuarters(span.to, last.to) > 0) {
      merged[merged.length - 1] = { ...last, cut: { from: last.cut.from, to: span.cut.to }, to: span.to };
    }
  }
  return merged.map(({ cut }) => cut);
}

/** Why a candidate cannot stand beside what is agreed; null when it can. */
export function meetsAgreed(score: Score, agreed: readonly CutSpan[], cut: CutSpan): string | null {
  const [from, to] = [onsetOf(score, cut.from), onsetOf(score, cut.to)];
  for (const other of agreed) {
    const begins = compareQuarters(onsetOf(score, other.from), to);
    const ends = compareQuarters(onsetOf(score, other.to), from);
    if (begins > 0 || ends < 0) continue;
    const name = nameCut(score, other);
    if (begins === 0 || ends === 0)
      return `Nothing would be played between it and a cut that is agreed: ${name}.`;
    return `It overlaps a cut that is agreed: ${name}.`;
  }
  return null;
}
