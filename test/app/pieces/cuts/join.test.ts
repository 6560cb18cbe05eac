import { describe, expect, test } from "vitest";
import { isFigureKnown, sayFigures } from "@/app/(desk)/pieces/[pieceId]/_join/join-evidence";
import {
  figureHeight,
  figureWidth,
  joinX,
  layChords,
  layKey,
  layLoudness,
  layPhrases,
  layTopLine,
} from "@/app/(desk)/pieces/[pieceId]/_join/join-figures";
import { barsOfRow, drawnKinds, nameJoin, sortRows } from "@/app/(desk)/pieces/[pieceId]/_join/join-words";
import type { JoinFigure, JoinGrade, JoinRow, JoinRowKind } from "@/lib/cuts/join/join-row";
import { at } from "@/test/builders/build-score";
import { bars, cutAt } from "./desk-of-concertino";

const row = (
  kind: JoinRowKind,
  figures: Record<string, JoinFigure> = {},
  grade: JoinGrade = "clean",
): JoinRow => ({ kind, grade, figures, sentence: "A sentence.", noteIds: [], bars: [3, 9] });

/** Cuts of all sorts: from bar line to bar line, from the beginning, to the end, over the soloist. */
const someCuts = [
  cutAt(9, 17),
  cutAt(0, 8),
  cutAt(20, 33),
  cutAt(104, 112),
  cutAt(98, 105),
  cutAt(60, 90),
  cutAt(bars.length - 8, bars.length - 2),
];

describe("the words of a join", () => {
  test.each<[string, ReturnType<typeof at>, ReturnType<typeof at>]>([
    ["Join 8 to 17", at(9), at(17)],
    ["Start at 8", at(0), at(8)],
    ["Join bar 9 beat 3 to bar 17 beat 3", at(9, 2), at(17, 2)],
  ])("%s", (said, from, to) => {
    expect(nameJoin(bars, { from, to })).toBe(said);
  });

  test("a cut to the end of the piece has no landing", () => {
    const last = bars.length - 1;
    const to = at(last, bars[last]?.length ?? "0");
    expect(nameJoin(bars, { from: at(last - 3), to })).toBe(`End after ${bars[last - 4]?.label}`);
  });

  test("what is not clean comes first, the worst before; what only did not matter comes last", () => {
    const { drawn, telling, quiet } = sortRows({
      rows: [
        row("loudness"),
        row("key"),
        row("slurs", {}, "needs-a-touch"),
        row("theme", { kept: [], lost: [] }),
        row("precedent", { precedent: "same-before" }),
        row("held", { held: 2 }, "rough"),
      ],
    });
    expect(drawn.map(({ kind }) => kind)).toEqual(["key", "loudness"]);
    expect(telling.map(({ kind }) => kind)).toEqual(["held", "slurs", "precedent"]);
    expect(quiet.map(({ kind }) => kind)).toEqual(["theme"]);
  });

  test("every row of real joins is shown once", () => {
    for (const { join } of someCuts) {
      const { drawn, telling, quiet } = sortRows(join);
      const shown = [...drawn, ...telling, ...quiet].map(({ kind }) => kind);
      expect(shown.sort()).toEqual(join.rows.map(({ kind }) => kind).sort());
      expect(drawn.every(({ kind }) => (drawnKinds as readonly string[]).includes(kind))).toBe(true);
    }
  });

  test.each<[JoinRowKind, ReturnType<typeof at>, number[]]>([
    ["melody", at(9), [8, 17]],
    ["melody", at(9, 2), [9, 17]],
    ["held", at(0), [17]],
    ["theme", at(9), [3, 9]],
  ])("%s from %o leads to bars %j", (kind, from, shown) => {
    expect(barsOfRow({ kind, bars: [9, 3] }, { from, to: at(17) })).toEqual(shown);
  });
});

describe("what a join was judged by", () => {
  test("there are words for every figure of real joins, each said once", () => {
    for (const { join } of someCuts) {
      for (const one of join.rows) {
        expect(Object.keys(one.figures).filter((name) => !isFigureKnown(name))).toEqual([]);
        const said = sayFigures(one).map(({ what }) => what);
        expect(new Set(said).size).toBe(said.length);
      }
    }
  });

  test("figures are said as musicians say them", () => {
    expect(
      sayFigures(
        row("loudness", { levelBefore: 6, levelAfter: null, hairpinBefore: -1, hairpinCrosses: true }),
      ).map(({ value }) => value),
    ).toEqual(["ff", "not printed", "diminuendo", "yes"]);
  });
});

describe("the drawn figures", () => {
  test("lie inside their box, the two sides on their side of the join", () => {
    for (const { join } of someCuts) {
      const of = (kind: JoinRowKind) => join.rows.find((one) => one.kind === kind);
      const [key, melody, phrase, loudness] = [of("key"), of("melody"), of("phrase"), of("loudness")];
      for (const x of (key && layKey(key)?.xs) ?? []) expect(x).toBeGreaterThanOrEqual(2);
      const line = melody && layTopLine(melody);
      for (const { x, y } of line?.before ?? []) {
        expect(x).toBeLessThan(joinX);
        expect(y).toBeLessThanOrEqual(figureHeight);
      }
      for (const { x } of line?.after ?? []) {
        expect(x).toBeGreaterThan(joinX);
        expect(x).toBeLessThan(figureWidth);
      }
      const phrases = phrase && layPhrases(phrase);
      for (const x of phrases?.before.starts ?? []) expect(phrases?.before.ticks).toContain(x);
      const loud = loudness && layLoudness(loudness);
      for (const side of [loud?.before, loud?.after])
        expect(side?.height ?? 0).toBeLessThanOrEqual(figureHeight);
    }
  });

  test.each([
    ["the same key", -3, -3, 0, 5],
    ["a fifth up", -3, -2, 1, 5],
    ["far away", -4, 5, 9, 10],
  ])("keys: %s", (_, fifthsBefore, fifthsAfter, steps, places) => {
    const laid = layKey(row("key", { fifthsBefore, fifthsAfter }));
    expect([laid?.steps, laid?.xs.length]).toEqual([steps, places]);
    expect(Math.sign((laid?.afterX ?? 0) - (laid?.beforeX ?? 0))).toBe(Math.sign(fifthsAfter - fifthsBefore));
  });

  test.each([
    [10, "dominant-seventh", -3, "major", "B♭7"],
    [3, "major", -3, "major", "E♭"],
    [2, "minor", -1, "minor", "Dm"],
    [6, "diminished", 1, "major", "F♯°"],
    [1, "major", -1, "minor", "C♯"],
    [9, "half-diminished", -2, "minor", "Aø7"],
  ])("pitch class %i, %s, in a key of %i fifths, %s: %s", (root, quality, fifths, mode, name) => {
    const key = row("key", { fifthsBefore: fifths, modeBefore: mode });
    const { before, after } = layChords(row("harmony", { rootBefore: root, qualityBefore: quality }), key);
    expect([before, after]).toEqual([name, null]);
  });
});
