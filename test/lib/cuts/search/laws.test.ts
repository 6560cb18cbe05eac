import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { listen } from "@/lib/cuts/join/listen";
import { findCuts } from "@/lib/cuts/search/find-cuts";
import { readScore } from "@/lib/musicxml/read-score";
import type { CutSpan } from "@/lib/score/cut-span";
import type { Position } from "@/lib/score/position";
import { scaleQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { at } from "../../../builders/build-score";
import { doubleValues, renumberBars, transposeScore } from "../../harmony/change-score";
import { encode, sourceOf } from "../../musicxml/music-source";
import { intervalsAround } from "./tell-cuts";
import { arbitraryTutti, buildTutti, tuttiWithRepeat } from "./tutti-score";

/** The tutti of a score made by `buildTutti`. */
const spanOf = (score: Score): CutSpan => ({ from: at(1), to: at(score.bars.length - 4) });

/** The first ten, without names of notes and bars. */
function firstTen(score: Score) {
  return findCuts(listen(score), spanOf(score), { limit: 10 }).map((cut) => ({
    from: cut.from,
    to: cut.to,
    grade: cut.grade,
    cost: Math.round(cut.cost * 1e6),
    saved: Math.round(cut.savedSeconds * 1000),
    rows: cut.assessment.rows.map(({ kind, grade }) => `${kind} ${grade}`),
    alsoAt: cut.alsoAt,
  }));
}

const intervals = fc.constantFrom(...intervalsAround);
const runs = { numRuns: 8 };

describe("what changes nothing in the first ten cuts", () => {
  it("transposing the music", () => {
    fc.assert(
      fc.property(arbitraryTutti, intervals, (text, by) => {
        const score = buildTutti(text);
        expect(firstTen(transposeScore(score, by))).toEqual(firstTen(score));
      }),
      runs,
    );
  });

  it("notes of twice the value at twice the tempo", () => {
    const double = (position: Position) => ({ ...position, offset: scaleQuarters(position.offset, 2) });
    const doubleCut = ({ from, to }: CutSpan) => ({ from: double(from), to: double(to) });
    fc.assert(
      fc.property(arbitraryTutti, (text) => {
        const score = buildTutti(text);
        const doubled = doubleValues(score);
        const tempoMarks = doubled.tempoMarks.map((mark) => ({
          ...mark,
          quartersPerMinute: mark.quartersPerMinute === null ? null : 2 * mark.quartersPerMinute,
        }));
        const expected = firstTen(score).map((cut) => ({
          ...cut,
          ...doubleCut(cut),
          alsoAt: cut.alsoAt.map(doubleCut),
        }));
        expect(firstTen({ ...doubled, tempoMarks })).toEqual(expected);
      }),
      runs,
    );
  });

  it("other printed numbers and ids of bars", () => {
    fc.assert(
      fc.property(arbitraryTutti, (text) => {
        const score = buildTutti(text);
        expect(firstTen(renumberBars(score))).toEqual(firstTen(score));
      }),
      runs,
    );
  });

  it("the divisions that a file counts in", () => {
    const tones = ["C5", "E5", "G5", "E5", "D5", "F5", "B4", "D5", "C5", "A4", "F5", "C6"];
    const written = (divisions: number) => {
      const note = (tone: string) =>
        `<note><pitch><step>${tone[0]}</step><octave>${tone[1]}</octave></pitch><duration>${divisions}</duration><voice>1</voice></note>`;
      const attributes = `<attributes><divisions>${divisions}</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time></attributes>`;
      const bar = (index: number) => {
        const first = (index * 5) % tones.length;
        return [0, 1, 2, 3].map((beat) => note(tones[(first + beat) % tones.length] ?? "C5")).join("");
      };
      const measures = Array.from({ length: 20 }, (_, index) => (index === 0 ? attributes : "") + bar(index));
      const read = readScore(encode(sourceOf({ measures })));
      if (!read.ok) throw new Error(read.problem.kind);
      return firstTen(read.value.score);
    };
    const whole = written(1);
    expect(whole.length).toBeGreaterThan(0);
    expect(written(480)).toEqual(whole);
    expect(written(7)).toEqual(whole);
  });
});

describe("eight bars that come twice in a row", () => {
  it("make a cut that is seamless and ranks first", () => {
    fc.assert(
      fc.property(tuttiWithRepeat, ({ order, repeatAt }) => {
        const score = buildTutti({ order });
        const [best] = findCuts(listen(score), spanOf(score));
        if (!best) throw new Error("No cut found");
        const first = 1 + repeatAt;
        // Wherever the seam stands in the repetition, eight bars go and the same music is left.
        const all = [best, ...best.alsoAt].map(({ from, to }) => [
          from.barIndex,
          to.barIndex - from.barIndex,
        ]);
        expect(best.to.barIndex - best.from.barIndex).toBe(8);
        expect(best.from.barIndex).toBeGreaterThanOrEqual(first);
        expect(best.from.barIndex).toBeLessThanOrEqual(first + 8);
        expect(all.length).toBeGreaterThan(1);
        expect(best.grade).toBe("clean");
        expect(best.assessment.signs.repeat).toBe(1);
        expect(best.assessment.rows.find(({ kind }) => kind === "precedent")?.figures.likeness).toBe(1);
      }),
      runs,
    );
  });
});
