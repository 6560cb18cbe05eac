import { checkCut } from "@/lib/cuts/check-cut";
import { toPositionTerms } from "@/lib/edition/position-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { EditionMarks } from "@/lib/musicxml/marks/write-marks";
import type { CutSpan } from "@/lib/score/cut-span";
import { type Quarters, quarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { randomRewrite } from "../builders/random-rewrite";
import { randomCuts } from "../lib/musicxml/cut/random-cuts";

/** What two players might have agreed on. */
export interface RandomEdition {
  readonly cuts: readonly CutSpan[];
  readonly marks: EditionMarks;
  readonly rewrites: readonly RewriteTerms[];
}

/** Sensible cuts, breaths, cues, remarks and rewrites of a piece, the same for the same numbers. */
export function randomEdition(
  random: () => number,
  score: Score,
  lengths: readonly Quarters[],
): RandomEdition {
  const place = () => {
    const barIndex = Math.floor(random() * score.bars.length);
    const offset = random() < 0.5 ? quarters(0) : quarters(1, random() < 0.3 ? 3 : 2);
    return toPositionTerms({ barIndex, offset });
  };
  const list = <T>(count: number, make: () => T) => Array.from({ length: count }, make);
  // Nobody rewrites a reduction in tablature.
  const reduction = score.parts.find(
    ({ role, clefs }) => role === "reduction" && clefs.every(({ sign }) => sign !== "TAB"),
  );
  return {
    cuts: sensibleCuts(random, score, lengths),
    marks: {
      breaths: list(12, () => ({ at: place() })),
      cues: list(8, () => ({ at: place(), text: "Fl. & Ob." })),
      remarks: list(3, () => ({
        from: place(),
        to: place(),
        text: "not too <early>, and together",
        by: "Nerys Quill",
      })),
    },
    rewrites: reduction
      ? list(4, () => randomRewrite(random, score, reduction, random() < 0.5 ? "in place" : "ossia"))
      : [],
  };
}

/** Cuts that the desk would take: they part no repeat from its end and leave something of the piece. */
function sensibleCuts(random: () => number, score: Score, lengths: readonly Quarters[]): CutSpan[] {
  for (let turn = 0; turn < 20; turn += 1) {
    const cuts = randomCuts(random, lengths);
    const isAll = cuts.some(({ from, to }) => to.barIndex - from.barIndex >= score.bars.length - 2);
    if (!isAll && cuts.every((cut) => checkCut(score, cut).ok)) return cuts;
  }
  return [];
}
