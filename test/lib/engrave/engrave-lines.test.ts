import { describe, expect, it } from "vitest";
import type { EngraveLayout } from "@/lib/engrave/engrave-layout";
import { LineEngraver } from "@/lib/engrave/engrave-lines";
import type { EngravedSystem } from "@/lib/engrave/screen-engraving";
import { openEngraver } from "@/lib/engrave/toolkit";
import { takeExcerpt } from "@/lib/musicxml/cut/take-excerpt";
import { readTree } from "@/lib/musicxml/read-tree";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";

const layout: EngraveLayout = {
  systemUnits: 230,
  spacing: 0.6,
  barNumbers: "every-bar",
  firstLabels: "short",
  takesWantedBreaks: true,
  fillsLastSystem: false,
};
const { toolkit } = await openEngraver();

/** A clarinet's and a piano's key change in these bars, each its own. */
function engraver() {
  const read = readTree(new TextEncoder().encode(writeSoloAndReduction()));
  if (!read.ok) throw new Error(read.problem.kind);
  return new LineEngraver(toolkit, takeExcerpt(read.value, 115, 140), layout, {});
}

const startsOf = (systems: readonly EngravedSystem[]) => systems.map(({ firstBarIndex }) => firstBarIndex);
const plainOf = ({ svg }: EngravedSystem) => svg.replace(/s\d+-/g, "");

describe("LineEngraver", () => {
  it("engraves again in the lines that are given, and keeps the pictures of those that stay", () => {
    const lines = engraver();
    const own = lines.inOwnLines();
    const starts = startsOf(own);
    expect(own.length).toBeGreaterThan(4);
    const [, second = 0, third = 0] = starts;
    // Another second line; from the third on as before.
    const other = second + 1;
    expect(other).toBeLessThan(third);
    const again = lines.inLines([other, ...starts.slice(2)]);
    expect(startsOf(again)).toEqual([0, other, ...starts.slice(2)]);
    expect(again.map(({ index }) => index)).toEqual(again.map((_, index) => index));
    expect(again.slice(2).map(plainOf)).toEqual(own.slice(2).map(plainOf));
    expect(again.flatMap(({ bars }) => bars.map(({ barIndex }) => barIndex))).toEqual(
      own.flatMap(({ bars }) => bars.map(({ barIndex }) => barIndex)),
    );
  });

  it("takes a line for each bar, across changes of key and metre", () => {
    const lines = engraver();
    const bars = lines.inOwnLines().flatMap(({ bars: own }) => own.map(({ barIndex }) => barIndex));
    expect(startsOf(lines.inLines(bars.slice(1)))).toEqual(bars);
  });

  it("has its own lines first", () => {
    expect(() => engraver().inLines([3])).toThrow(RangeError);
  });
});
