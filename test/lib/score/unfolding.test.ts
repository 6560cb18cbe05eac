import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { addQuarters, noQuarters } from "@/lib/score/quarters";
import { buildScore } from "../../builders/build-score";

/** A section of bars and how often it is repeated, or one with endings. */
const section = fc.record({
  bars: fc.integer({ min: 1, max: 4 }),
  times: fc.integer({ min: 1, max: 4 }),
  endings: fc.array(fc.integer({ min: 1, max: 2 }), { minLength: 2, maxLength: 4 }).map((bars) => bars),
  hasEndings: fc.boolean(),
});
type Section = { bars: number; times: number; endings: number[]; hasEndings: boolean };

const bars = (count: number) => Array.from({ length: count }, () => "c4:q").join(" | ");

function write({ bars: count, times, endings, hasEndings }: Section): string {
  if (!hasEndings) return times === 1 ? `${bars(count)} |` : `|: ${bars(count)} :|x${times}`;
  const written = endings.map((length, index) => {
    const isLast = index === endings.length - 1;
    return `[${index + 1}. ${bars(length)} ${isLast ? "] |" : ":|"}`;
  });
  return `|: ${bars(count)} | ${written.join(" ")}`;
}

/** How often each bar of a section sounds, in written order. */
function expectedCounts({ bars: count, times, endings, hasEndings }: Section): number[] {
  if (!hasEndings) return Array.from({ length: count }, () => times);
  return [
    ...Array.from({ length: count }, () => endings.length),
    ...endings.flatMap((length) => Array(length).fill(1)),
  ];
}

describe("unfolding", () => {
  it("plays each bar as often as its section says, none lost, none doubled", () => {
    fc.assert(
      fc.property(fc.array(section, { minLength: 1, maxLength: 6 }), (sections) => {
        const score = buildScore({ metre: "1/4", solo: sections.map(write).join(" ") });
        const order = findPerformedOrder(score);
        const counts = score.bars.map(
          (bar) => order.bars.filter(({ barIndex }) => barIndex === bar.index).length,
        );
        expect(counts).toEqual(sections.flatMap(expectedCounts));
        expect(order.notices).toEqual([]);
      }),
    );
  });

  it("numbers the passes of each bar from 1 and adds up to the length", () => {
    fc.assert(
      fc.property(fc.array(section, { minLength: 1, maxLength: 6 }), (sections) => {
        const score = buildScore({ metre: "1/4", solo: sections.map(write).join(" ") });
        const order = findPerformedOrder(score);
        const passes = new Map<number, number>();
        let start = noQuarters;
        for (const bar of order.bars) {
          expect(bar.pass).toBe((passes.get(bar.barIndex) ?? 0) + 1);
          expect(bar.start).toEqual(start);
          passes.set(bar.barIndex, bar.pass);
          start = addQuarters(start, bar.to);
        }
        expect(order.length).toEqual(start);
      }),
    );
  });

  it("plays the written order when there are no signs", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), (count) => {
        const { bars: performed } = findPerformedOrder(buildScore({ metre: "1/4", solo: bars(count) }));
        expect(performed.map(({ barIndex }) => barIndex)).toEqual(
          Array.from({ length: count }, (_, index) => index),
        );
      }),
    );
  });

  it("ends and plays only bars of the piece for any signs at all", () => {
    const sign = fc.constantFrom(
      "$dc",
      "$ds",
      "$fine",
      "$segno",
      "$coda",
      "$tocoda",
      "[1.",
      "[2.",
      "]",
      "",
      "",
    );
    const line = fc.constantFrom("|", ":|", "|:", ":|:", ":|x5");
    fc.assert(
      fc.property(fc.array(fc.tuple(sign, sign, line), { minLength: 1, maxLength: 12 }), (written) => {
        const solo = written.map(([a, b, end]) => `${a} c4:q ${b} ${end}`).join(" ");
        const score = buildScore({ metre: "1/4", solo });
        const order = findPerformedOrder(score);
        const missing = score.bars.filter(
          (bar) => !order.bars.some(({ barIndex }) => barIndex === bar.index),
        );
        const isSaid = order.notices.some(({ kind }) => kind === "bar-never-played");
        expect(missing.length > 0).toBe(isSaid);
        expect(order.bars.length).toBeLessThan(2000);
      }),
      { numRuns: 500 },
    );
  });
});
