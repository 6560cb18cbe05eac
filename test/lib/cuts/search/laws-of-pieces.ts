import { expect, it } from "vitest";
import { listen } from "@/lib/cuts/join/listen";
import { findCuts } from "@/lib/cuts/search/find-cuts";
import { readScore } from "@/lib/musicxml/read-score";
import { readTree } from "@/lib/musicxml/read-tree";
import { writeTree } from "@/lib/musicxml/write-tree";
import { childElements, textOf, type XmlElement } from "@/lib/musicxml/xml-tree";
import { beatOf } from "@/lib/score/beat-of";
import type { CutSpan } from "@/lib/score/cut-span";
import { onsetOf } from "@/lib/score/onset-of";
import { addQuarters, compareQuarters, subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import { doubleValues, renumberBars, transposeScore } from "../../harmony/change-score";
import { barsToRepeat, repeatBars } from "./repeat-bars";
import {
  doubleMap,
  doubleSpan,
  doubleTold,
  intervalsAround,
  reword,
  tellCuts,
  tuttiSpans,
  withoutLabels,
  withoutNames,
  withoutValues,
} from "./tell-cuts";

function read(bytes: Uint8Array): Score {
  const source = readScore(bytes);
  if (!source.ok) throw new Error(source.problem.kind);
  return source.value.score;
}

/** The same file counted in other divisions. */
function changeDivisions(bytes: Uint8Array, factor: number): Uint8Array {
  const tree = readTree(bytes);
  if (!tree.ok) throw new Error(tree.problem.kind);
  const counted = new Set(["divisions", "duration", "offset"]);
  const change = (element: XmlElement): void => {
    if (counted.has(element.name)) {
      const value = Number(textOf(element)) * factor;
      element.children.splice(0, element.children.length, { kind: "text", text: `${value}` });
    }
    for (const inner of childElements(element)) change(inner);
  };
  change(tree.value.root);
  return new TextEncoder().encode(writeTree(tree.value));
}

/** Beats in dotted values have no counterpart of twice the length: 6/4 is counted in quarters. */
const canBeDoubled = (score: Score): boolean =>
  score.bars.every(
    ({ metre }) => beatOf(metre).num !== 3 && metre.groups.every(({ beatType }) => beatType > 1),
  );

/** A span that eight bars more have come into. */
function longer(score: Score, repeated: Score, { from, to }: CutSpan): CutSpan {
  const more = subtractQuarters(
    repeated.bars.at(-1)?.start ?? onsetOf(score, to),
    score.bars.at(-1)?.start ?? onsetOf(score, to),
  );
  const end = addQuarters(onsetOf(score, to), more);
  const bar = repeated.bars.findLast(({ start }) => compareQuarters(start, end) <= 0);
  if (!bar) throw new Error("No bar");
  return { from, to: { barIndex: bar.index, offset: subtractQuarters(end, bar.start) } };
}

/**
 * The laws of the search on one piece: what changes nothing in the first ten cuts of its tuttis (places, grades, costs,
 * order, and every sentence but for the names in it), and the repetition that makes the best cut.
 */
export function checkLaws(bytes: Uint8Array): void {
  const score = read(bytes);
  const spans = tuttiSpans(score);
  const told = tellCuts(score, spans);

  it("finds cuts to compare", () => {
    expect(told.flat().length).toBeGreaterThanOrEqual(5);
  });

  it.each(intervalsAround)("transposed by $chromatic semitones", (by) => {
    const transposed = tellCuts(transposeScore(score, by), spans);
    expect(reword(transposed, withoutNames)).toEqual(reword(told, withoutNames));
  });

  it.runIf(canBeDoubled(score))("in notes of twice the value", () => {
    const doubled = tellCuts(doubleValues(score), spans.map(doubleSpan), {
      map: doubleMap(readTempoMap(score)),
    });
    expect(reword(doubled, withoutValues)).toEqual(reword(doubleTold(told), withoutValues));
  });

  it("with other printed numbers", () => {
    const renumbered = tellCuts(renumberBars(score), spans);
    expect(reword(renumbered, withoutLabels)).toEqual(reword(told, withoutLabels));
  });

  it.each([3, 7])("in divisions %i times as fine", (factor) => {
    expect(tellCuts(read(changeDivisions(bytes, factor)), spans)).toEqual(told);
  });

  const repeatable = spans.flatMap((span) => barsToRepeat(score, span, 8).map((first) => ({ span, first })));
  const step = Math.ceil(repeatable.length / 6);
  const chosen = repeatable.filter((_, place) => place % step === 0);

  it.runIf(chosen.length > 0).each(chosen)(
    "with eight bars from $first on played twice",
    ({ span, first }) => {
      const repeated = repeatBars(score, first, 8);
      const found = findCuts(listen(repeated), longer(score, repeated, span));
      const seamless = found.findIndex(
        ({ from, to }) =>
          to.barIndex - from.barIndex === 8 &&
          compareQuarters(from.offset, to.offset) === 0 &&
          from.barIndex >= first &&
          from.barIndex <= first + 8,
      );
      expect(seamless).toBeGreaterThanOrEqual(0);
      expect(found[seamless]?.grade).toBe("clean");
      // Nothing stands before it but what the piece itself says twice in a row.
      expect(found.slice(0, seamless).filter(({ assessment }) => assessment.signs.repeat === 0)).toEqual([]);
    },
  );
}
