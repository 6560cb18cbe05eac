import type { ScoreInTime } from "@/app/_data/desk/in-time";
import { nameBeat } from "@/lib/cuts/name-position";
import type { SheetCut } from "@/lib/engrave/pdf/cut-sheet-input";
import { beatOf } from "@/lib/score/beat-of";
import type { CutSpan } from "@/lib/score/cut-span";
import { comparePositions, type Position } from "@/lib/score/position";
import { isEqualQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

type Letters = readonly { readonly text: string; readonly barIndex: number }[];
type CutPlace = Pick<
  SheetCut,
  "beforePlace" | "beforeLabel" | "afterPlace" | "afterLabel" | "afterContext" | "tutti"
>;

/** Where a cut leaves and where it goes on, as a player would say it: "end of 84", "97, four before E". */
export function placeOfCut({ score, tuttis }: ScoreInTime, letters: Letters, span: CutSpan): CutPlace {
  return {
    ...leaving(score, span.from),
    ...goingOn(score, span.to),
    afterContext: nearLetter(letters, span.to),
    tutti: findTutti(tuttis, letters, span),
  };
}

function leaving(score: Score, from: Position): Pick<CutPlace, "beforePlace" | "beforeLabel"> {
  if (from.offset.num > 0)
    return {
      beforePlace: `before beat ${beatAt(score, from)} of`,
      beforeLabel: labelOf(score, from.barIndex),
    };
  if (from.barIndex === 0) return { beforePlace: "start of", beforeLabel: labelOf(score, 0) };
  return { beforePlace: "end of", beforeLabel: labelOf(score, from.barIndex - 1) };
}

function goingOn(score: Score, to: Position): Pick<CutPlace, "afterPlace" | "afterLabel"> {
  const afterLabel = labelOf(score, to.barIndex);
  if (to.offset.num === 0) return { afterPlace: null, afterLabel };
  const bar = score.bars[to.barIndex];
  const isEnd = bar !== undefined && isEqualQuarters(to.offset, bar.length);
  return { afterPlace: isEnd ? "end of" : `beat ${beatAt(score, to)} of`, afterLabel };
}

function labelOf(score: Score, barIndex: number): string {
  return score.bars[barIndex]?.label ?? "";
}

function beatAt(score: Score, { barIndex, offset }: Position): string {
  const bar = score.bars[barIndex];
  return bar ? nameBeat(offset, beatOf(bar.metre)) : "1";
}

const counts = ["", "one", "two", "three", "four", "five", "six", "seven", "eight"];

/** The next letter, else the last one, within what one counts by eye: eight bars. */
function nearLetter(letters: Letters, { barIndex }: Position): CutPlace["afterContext"] {
  const next = letters.find((letter) => letter.barIndex >= barIndex);
  if (next?.barIndex === barIndex) return { words: "at", letter: next.text };
  const before = next && counts[next.barIndex - barIndex];
  if (next && before) return { words: `${before} before`, letter: next.text };
  const last = letters.findLast((letter) => letter.barIndex < barIndex);
  const after = last && counts[barIndex - last.barIndex];
  return last && after ? { words: `${after} after`, letter: last.text } : null;
}

/** The tutti in which a cut lies wholly; null when the soloist plays somewhere in it. */
function findTutti(tuttis: ScoreInTime["tuttis"], letters: Letters, span: CutSpan): CutPlace["tutti"] {
  const tutti = tuttis.find(
    ({ from, to }) => comparePositions(from, span.from) <= 0 && comparePositions(span.to, to) <= 0,
  );
  if (!tutti) return null;
  if (tutti.place !== "interlude") return { words: `${tutti.place} tutti`, letter: null };
  const letter = letters.find(({ barIndex }) => Math.abs(barIndex - tutti.from.barIndex) <= 1);
  return letter
    ? { words: "tutti at", letter: letter.text }
    : { words: `tutti from bar ${tutti.firstBarLabel}`, letter: null };
}
