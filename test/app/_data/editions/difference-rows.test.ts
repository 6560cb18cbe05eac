import { describe, expect, test } from "vitest";
import type { DeskAnswer, DeskCut } from "@/app/_data/desk/desk";
import { layInTime } from "@/app/_data/desk/in-time";
import { toRows } from "@/app/_data/editions/difference-rows";
import { drawSide } from "@/app/_data/editions/draw-side";
import { toCutTerms } from "@/lib/edition/cut-terms";
import type { EditionDifference } from "@/lib/edition/edition-difference";
import { hashTerms, hashText } from "@/lib/edition/hash-terms";
import { printedTempo } from "@/lib/edition/tempo-terms";
import type { CutSpan } from "@/lib/score/cut-span";
import { noQuarters } from "@/lib/score/quarters";
import { seconds } from "@/lib/score/seconds";
import { buildScore } from "@/test/builders/build-score";

// Twenty bars of 4/4 at 60: a bar lasts four seconds. At 120 it lasts two.
const bars = (bar: string) => Array.from({ length: 20 }, () => bar).join(" | ");
const score = buildScore({ metre: "4/4", tempo: 60, solo: bars("c5:w"), piano: bars("c3:w") });
const sourceHash = hashText("a source");
const slow = layInTime(score, printedTempo, 16);
const fastFromTheStart = [{ at: { barIndex: 0, offset: "0" }, quartersPerMinute: 120 }];
const fast = layInTime(score, { ...printedTempo, tempi: fastFromTheStart }, 16);

function span(from: number, to: number): CutSpan {
  const at = (barIndex: number) => ({ barIndex, offset: noQuarters });
  return { from: at(from), to: at(to) };
}
const terms = (from: number, to: number) => toCutTerms(span(from, to), sourceHash);

function said(userId: string, answer: DeskAnswer["answer"], at: string): DeskAnswer {
  return { userId, answer, at, reason: "" };
}

function proposal(from: number, to: number, changes: Partial<DeskCut>): DeskCut {
  const { from: start, to: end } = terms(from, to);
  return {
    ...{ id: "c", number: 1, state: "agreed", proposedBy: "pf", createdAt: "2026-01-01T00:00:00Z" },
    ...{ reason: "", termsHash: hashTerms(terms(from, to)), from: start, to: end, name: "", firstBar: from },
    ...{ lastBar: to - 1, gaps: [], weight: null, answers: [], instead: null, frozenIn: [], why: null },
    ...{ isStale: false, waitsForMe: false, ...changes },
  };
}

function difference(before: [number, number] | null, after: [number, number] | null): EditionDifference {
  return {
    ...{ kind: "cut-moved", sentence: "moved", secondsLonger: seconds(-8), mark: null },
    before: before && terms(...before),
    after: after && terms(...after),
  };
}

const nameCut = ({ from, to }: CutSpan) => `bars ${from.barIndex + 1}–${to.barIndex}`;
const rowsWith = (cuts: DeskCut[], one: EditionDifference) =>
  toRows({ earlier: slow, later: fast, cuts, nameCut }, [one])[0];

describe("a line of the comparison", () => {
  test("tells who proposed and who agreed, of the terms that stand in the later side", () => {
    const old = proposal(4, 8, { id: "old", number: 1 });
    const now = proposal(4, 10, {
      ...{ id: "now", number: 2, proposedBy: "so", createdAt: "2026-02-01T00:00:00Z" },
      answers: [said("pf", "agree", "2026-02-03T00:00:00Z")],
    });
    expect(rowsWith([old, now], difference([4, 8], [4, 10]))).toMatchObject({
      ...{ cutNumber: 2, before: "bars 5–8", after: "bars 5–10" },
      proposed: { userId: "so", at: "2026-02-01T00:00:00Z" },
      answered: { userId: "pf", at: "2026-02-03T00:00:00Z" },
    });
  });

  test("of a cut that is gone, it tells who reopened it", () => {
    const gone = proposal(4, 8, {
      state: "reopened",
      answers: [said("so", "agree", "2026-01-02T00:00:00Z"), said("pf", "reopen", "2026-01-09T00:00:00Z")],
    });
    expect(rowsWith([gone], difference([4, 8], null))).toMatchObject({
      after: null,
      answered: { userId: "pf", at: "2026-01-09T00:00:00Z" },
    });
  });

  test("of the same terms proposed twice, the one that was agreed counts", () => {
    const agreed = proposal(4, 8, { number: 1, answers: [said("so", "agree", "2026-01-02T00:00:00Z")] });
    const declined = proposal(4, 8, {
      id: "d",
      number: 5,
      answers: [said("so", "decline", "2026-03-02T00:00:00Z")],
    });
    expect(rowsWith([agreed, declined], difference(null, [4, 8]))?.cutNumber).toBe(1);
  });

  test("a proposal of other bars is none of it", () =>
    expect(rowsWith([proposal(5, 8, {})], difference(null, [4, 8]))).toMatchObject({
      cutNumber: null,
      proposed: null,
      answered: null,
    }));

  test("lies where either cut lies, on each side’s own clock", () =>
    expect(rowsWith([], difference([4, 8], [6, 10]))?.place).toEqual({
      earlier: { from: 16, to: 40 },
      later: { from: 8, to: 20 },
    }));

  test("what is no cut has no place", () => expect(rowsWith([], difference(null, null))?.place).toBeNull());
});

describe("a drawn side", () => {
  test("runs as long as its clock less its cuts", () => {
    const side = drawSide(2, slow, [span(4, 8), span(12, 14)]);
    expect(side).toMatchObject({ name: 2, cutCount: 2, totalSeconds: 80, seconds: 56 });
    expect(side.gaps).toEqual([
      { from: 16, to: 32 },
      { from: 48, to: 56 },
    ]);
  });
});
