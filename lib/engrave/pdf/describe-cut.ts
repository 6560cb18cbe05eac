import type { Join } from "@/lib/musicxml/cut/apply-cuts";
import type { Bar } from "@/lib/score/bar";
import { beatOf } from "@/lib/score/beat-of";
import { type Quarters, quarters, quartersAsNumber } from "@/lib/score/quarters";
import { sayBarCount } from "@/lib/score/say-bar-count";
import { sayNumber } from "@/lib/score/say-number";
import type { Score } from "@/lib/score/score";
import type { SheetCut } from "./cut-sheet-input";
import { sayClock } from "./say-date";

/** A piece of a line: plain, in the italic of "Vi-" and "-de", or a boxed rehearsal letter. */
export type SheetWord =
  | { readonly kind: "plain"; readonly text: string }
  | { readonly kind: "cut-word"; readonly text: string }
  | { readonly kind: "letter"; readonly text: string };

const plain = (text: string): SheetWord => ({ kind: "plain", text });
/** Farther from a letter nobody counts. */
const mostBarsBeforeLetter = 12;

/** "Vi- end of 84 -de 97, four before [E]". */
export function describeJoinPlace(score: Score, join: Join): SheetWord[] {
  const { beforeLabel, beforeOffset, afterLabel, afterOffset } = join.sentenceParts;
  const before =
    beforeLabel === null
      ? "before the start"
      : sayPlace(score.bars[join.beforeBarIndex ?? 0], beforeLabel, beforeOffset, "end of ");
  const words: SheetWord[] = [{ kind: "cut-word", text: "Vi–" }, plain(` ${before} `)];
  if (afterLabel === null) return [...words, plain("to the end")];
  const after = sayPlace(score.bars[join.afterBarIndex ?? 0], afterLabel, afterOffset, "");
  return [
    ...words,
    { kind: "cut-word", text: "–de" },
    plain(` ${after}`),
    ...sayLetterAfter(score, join.afterBarIndex ?? 0),
  ];
}

function sayPlace(bar: Bar | undefined, label: string, offset: Quarters | null, atEdge: string): string {
  if (!offset || !bar) return `${atEdge}${label}`;
  const beat = beatOf(bar.metre);
  const count = quartersAsNumber(quarters(offset.num * beat.den, offset.den * beat.num)) + 1;
  return Number.isInteger(count) ? `beat ${count} of ${label}` : `inside ${label}`;
}

interface Letter {
  readonly text: string;
  readonly barIndex: number;
}

function findLetters(score: Score): Letter[] {
  const letters = score.parts.flatMap((part) =>
    part.directions.flatMap((each) =>
      each.kind === "rehearsal" ? [{ text: each.text, barIndex: each.barIndex }] : [],
    ),
  );
  return letters.sort((a, b) => a.barIndex - b.barIndex);
}

function sayLetterAfter(score: Score, barIndex: number): SheetWord[] {
  const next = findLetters(score).find((letter) => letter.barIndex >= barIndex);
  const distance = next ? next.barIndex - barIndex : Number.POSITIVE_INFINITY;
  if (!next || distance > mostBarsBeforeLetter) return [];
  const words = distance === 0 ? ", at " : `, ${sayNumber(distance, mostBarsBeforeLetter)} before `;
  return [plain(words), { kind: "letter", text: next.text }];
}

/** "tutti at [D] · 12 bars · 0:26". */
export function describeWhatGoes(score: Score, cut: SheetCut): SheetWord[] {
  const size = `${sayBarCount(cut.barCount)} · ${sayClock(cut.savedSeconds)}`;
  if (cut.tutti === "opening" || cut.tutti === "closing") return [plain(`${cut.tutti} tutti · ${size}`)];
  if (cut.tutti === null) return [plain(size)];
  const letter = findLetters(score).findLast(({ barIndex }) => barIndex <= cut.span.from.barIndex);
  if (!letter) return [plain(`tutti · ${size}`)];
  const isThere = cut.span.from.barIndex - letter.barIndex <= mostBarsBeforeLetter;
  return [
    plain(isThere ? "tutti at " : "tutti after "),
    { kind: "letter", text: letter.text },
    plain(` · ${size}`),
  ];
}
