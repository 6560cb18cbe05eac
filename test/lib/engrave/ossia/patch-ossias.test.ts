import { describe, expect, it } from "vitest";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { screenLayouts } from "@/lib/engrave/engrave-layout";
import { engraveSystems } from "@/lib/engrave/engrave-systems";
import { findOssiaStaves } from "@/lib/engrave/ossia/find-ossia-staves";
import { patchOssias } from "@/lib/engrave/ossia/patch-ossias";
import { openEngraver } from "@/lib/engrave/toolkit";
import { keepParts } from "@/lib/musicxml/cut/keep-parts";
import { writeRewrites } from "@/lib/musicxml/rewrite/write-rewrites";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { note, source } from "../../musicxml/cut/small-source";

const bars = Array.from({ length: 16 }, (_, index) => note("C5", 8) + note(index % 2 ? "D5" : "E5", 8));
const tree = source(bars, bars);
const { score } = scoreFromTree(tree);

/** Two bars of broken chords, as an ossia. */
function rewrite(bar: number): RewriteTerms {
  const chord = (barIndex: number) => ({
    at: { barIndex, offset: "0" },
    lasts: "4",
    staff: 1,
    voice: 1,
    pitches: (["C", "E", "G"] as const).map((step) => ({ step, alter: 0, octave: 4 })),
    tied: barIndex === bar ? [0, 1, 2] : [],
    tremolo: null,
    isRolled: true,
    isAccented: true,
  });
  const [from, to] = [bar, bar + 2].map((barIndex) => ({ barIndex, offset: "0" }));
  const events = [chord(bar), chord(bar + 1)];
  return {
    kind: "rewrite",
    sourceHash: "0".repeat(64),
    partId: "P2",
    from: from!,
    to: to!,
    events,
    shown: "ossia",
    words: "",
  };
}

describe("ossias", () => {
  it("know their staff, the staff below and their bars", () => {
    const found = findOssiaStaves(writeRewrites(tree, score, [rewrite(3)]));
    expect(found).toEqual([{ staff: 2, ofStaff: 3, measureIds: new Set(["b3", "b4"]) }]);
    expect(findOssiaStaves(tree)).toEqual([]);
  });

  it("stand behind their part where it is the top one, and stay with it when parts are taken", () => {
    const written = writeRewrites(tree, score, [rewrite(3)]);
    const reduction = keepParts(written, ["P2"]);
    expect(reduction.parts.map(({ attributes }) => attributes.id)).toEqual(["P2", "ossia-1-P2"]);
    expect(findOssiaStaves(reduction)).toMatchObject([{ staff: 2, ofStaff: 1 }]);
    expect(keepParts(written, ["P1"]).parts.map(({ attributes }) => attributes.id)).toEqual(["P1"]);
  });

  it("leave a text that is not the engraver's own as it is", () => {
    expect(patchOssias("<mei", [{ staff: 1, ofStaff: 2, measureIds: new Set() }])).toBe("<mei");
  });

  it("are drawn over just their bars, on to the next line, with their ids", async () => {
    const { toolkit } = await openEngraver();
    const draw = (...rewrites: RewriteTerms[]) => [
      ...engraveSystems(toolkit, writeRewrites(tree, score, rewrites), screenLayouts.tablet, {}),
    ];
    const plain = draw();
    // Over the end of the first line, so that the ossia goes on in the second.
    const last = plain[0]!.lastBarIndex;
    const drawn = draw(rewrite(last));
    const staves = (svg: string, bar: number) => {
      const bars = svg.split(/(?=<g id="b\d+" class="measure")/);
      const own = bars.find((text) => text.startsWith(`<g id="b${bar}"`)) ?? "";
      return own.match(/class="staff"|class="oStaff[^"]*"/g)?.length ?? 0;
    };
    const counts = drawn.flatMap(({ svg, bars: boxes }) =>
      boxes.map(({ barIndex }) => [barIndex, staves(svg, barIndex)]),
    );
    expect(counts).toEqual(
      score.bars.map(({ index }) => [index, index === last || index === last + 1 ? 3 : 2]),
    );
    expect(drawn.some(({ svg }) => new RegExp(`id="w${last}-\\d+"`).test(svg))).toBe(true);
  });
});
