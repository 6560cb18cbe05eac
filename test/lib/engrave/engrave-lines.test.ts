import { describe, expect, it } from "vitest";
import type { EngraveLayout } from "@/lib/engrave/engrave-layout";
import { LineEngraver } from "@/lib/engrave/engrave-lines";
import type { EngravedSystem } from "@/lib/engrave/screen-engraving";
import { openEngraver } from "@/lib/engrave/toolkit";
import { showCuts } from "@/lib/musicxml/cut/show-cuts";
import { takeExcerpt } from "@/lib/musicxml/cut/take-excerpt";
import { readTree } from "@/lib/musicxml/read-tree";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";
import { bars, cut, direction, note, source } from "../musicxml/cut/small-source";

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
    const all = lines.inOwnLines().flatMap(({ bars: own }) => own.map(({ barIndex }) => barIndex));
    expect(startsOf(lines.inLines(all.slice(1)))).toEqual(all);
  });

  it("ends the line of a cut that is shown where it does, though rests in it have become one bar", () => {
    const rest = '<note><rest measure="yes"/><duration>16</duration><voice>1</voice></note>';
    const [played, rests] = [note("C5", 16), Array.from({ length: 8 }, () => rest)];
    const tree = source([played, ...rests, played, played, played, played]);
    for (const [index, bar] of bars(tree).entries()) bar.attributes.id = `b${index}`;
    const lines = new LineEngraver(toolkit, showCuts(tree, [cut("3 to 11")]), layout, {
      condensesRests: true,
    });
    const [system] = lines.inOwnLines();
    const barAt = (index: number) => system?.bars.find(({ barIndex }) => barIndex === index);
    // Bars 4 to 9 are one with bar 3.
    expect(system?.bars.map(({ barIndex }) => barIndex)).toEqual([0, 1, 2, 9, 10, 11, 12]);
    const end =
      Number(/class="bracketSpan".*?<path d="M[\d.]+ [\d.]+ L([\d.]+) /.exec(system?.svg ?? "")?.[1]) + 240;
    const last = barAt(9);
    expect(end).toBeGreaterThan(last?.x ?? Number.NaN);
    expect(end).toBeLessThanOrEqual((last?.x ?? 0) + (last?.width ?? 0) + 300);
  });

  it("breaks lines between bars whose words reach over their ends, as it would without words", () => {
    const quarters = note("C5", 4) + note("E5", 4) + note("G5", 4) + note("E5", 4);
    const words = direction("<words>un poco più mosso ma sempre dolce</words>");
    const linesOf = (...bodies: string[]) => {
      const tree = source([bodies[0] ?? "", ...bodies.slice(1)]);
      for (const [index, bar] of bars(tree).entries()) bar.attributes.id = `b${index}`;
      const lines = new LineEngraver(toolkit, tree, layout, {});
      const own = lines.inOwnLines();
      const drawn = lines.inLines(startsOf(own).slice(1));
      // Only where words were cut for the sketch are they whole in the drawing alone.
      const count = (systems: readonly EngravedSystem[]) =>
        systems.flatMap(({ svg }) => svg.match(/più mosso/g) ?? []).length;
      expect(lines.isSketch).toBe(count(own) < count(drawn));
      expect(count(drawn)).toBe(bodies.filter((body) => body.includes("più mosso")).length);
      return drawn.map((system) => system.bars.length);
    };
    const plain = linesOf(...Array.from({ length: 16 }, () => quarters));
    const worded = linesOf(quarters, ...Array.from({ length: 14 }, () => words + quarters), quarters);
    expect(plain.length).toBeGreaterThan(2);
    expect(Math.max(...worded)).toBeLessThanOrEqual(Math.max(...plain) + 1);
    expect(Math.min(...worded.slice(0, -1))).toBeGreaterThan(1);
  });

  it("gives no two elements one id when its notation is loaded again", () => {
    const lines = engraver();
    const starts = startsOf(lines.inOwnLines());
    const findTwice = () => {
      const pictures = Array.from({ length: toolkit.getPageCount() }, (_, page) =>
        toolkit.renderToSVG(page + 1),
      );
      return pictures.flatMap((svg) => {
        const ids = [...svg.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
        return ids.filter((id, index) => ids.indexOf(id) < index);
      });
    };
    expect(findTwice()).toEqual([]);
    lines.inLines(starts.slice(1));
    expect(findTwice()).toEqual([]);
  });

  it("has its own lines first", () => {
    expect(() => engraver().inLines([3])).toThrow(RangeError);
  });
});
