import { type CutWeight, weighCut } from "@/lib/cuts/weigh-cut";
import { toPositionTerms } from "@/lib/edition/position-terms";
import type { CutSpan } from "@/lib/score/cut-span";
import type { DeskWeight } from "./desk";
import type { ScoreInTime } from "./in-time";
import { keepLately } from "./keep-lately";
import { listLetters } from "./strip-of";

const weights = new WeakMap<ScoreInTime, (key: string, compute: () => DeskWeight) => DeskWeight>();
const mostPerPiece = 200;

function keyOf(span: CutSpan): string {
  const [from, to] = [toPositionTerms(span.from), toPositionTerms(span.to)];
  return `${from.barIndex} ${from.offset} ${to.barIndex} ${to.offset}`;
}

/**
 * What one more cut does, for the screen.
 *
 * @param others the cuts that are agreed, without this one.
 * @throws RangeError if a cut cannot be made; ask `checkCut` first.
 */
export function weighForDesk(inTime: ScoreInTime, others: readonly CutSpan[], cut: CutSpan): DeskWeight {
  const lately = weights.get(inTime) ?? keepLately<DeskWeight>(mostPerPiece);
  weights.set(inTime, lately);
  const key = `${others.map(keyOf).sort().join(" | ")} + ${keyOf(cut)}`;
  return lately(key, () => toDeskWeight(inTime, weighCut(inTime.score, inTime.map, others, cut)));
}

function toDeskWeight(inTime: ScoreInTime, weight: CutWeight): DeskWeight {
  const { rest } = weight;
  return {
    barCount: weight.barCount,
    savedSeconds: weight.savedSeconds,
    runningBefore: weight.runningBefore.seconds,
    runningAfter: weight.runningAfter.seconds,
    rest: rest && {
      beforeSeconds: rest.beforeSeconds,
      afterSeconds: rest.afterSeconds,
      nextEntry: nameEntry(inTime, rest.nextEntryLabel),
    },
    soloNotesLost: weight.soloNotesLost.length,
  };
}

function nameEntry(inTime: ScoreInTime, label: string | null): { text: string; isLetter: boolean } {
  if (label === null) return { text: "the end", isLetter: false };
  return { text: label, isLetter: listLetters(inTime).some((letter) => letter.text === label.trim()) };
}
