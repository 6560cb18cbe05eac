import { describe, expect, it } from "vitest";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { screenLayouts } from "@/lib/engrave/engrave-layout";
import { LineEngraver } from "@/lib/engrave/engrave-lines";
import { showOssiaClefs } from "@/lib/engrave/ossia/show-ossia-clefs";
import type { EngravedSystem } from "@/lib/engrave/screen-engraving";
import { openEngraver } from "@/lib/engrave/toolkit";
import { writeRewrites } from "@/lib/musicxml/rewrite/write-rewrites";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { note, source } from "../../musicxml/cut/small-source";

const bars = Array.from({ length: 16 }, (_, index) => note("C5", 8) + note(index % 2 ? "D5" : "E5", 8));

/** Two bars of one chord each over the second part. */
function ossiaFrom(bar: number): RewriteTerms {
  const chord = (barIndex: number) => ({
    ...{ at: { barIndex, offset: "0" }, lasts: "4", staff: 1, voice: 1, tied: [], tremolo: null },
    pitches: (["C", "E", "G"] as const).map((step) => ({ step, alter: 0, octave: 4 })),
    ...{ isRolled: false, isAccented: false },
  });
  return {
    ...{ kind: "rewrite", sourceHash: "0".repeat(64), partId: "P2", shown: "ossia", words: "" },
    ...{ from: { barIndex: bar, offset: "0" }, to: { barIndex: bar + 2, offset: "0" } },
    events: [chord(bar), chord(bar + 1)],
  };
}

/** Clefs in a bar of a line; those of the line's own staves stand in its first bar. */
const clefsIn = (systems: readonly EngravedSystem[], bar: number): number => {
  const { svg } = systems.find((system) => system.bars.some(({ barIndex }) => barIndex === bar))!;
  const own = svg
    .split(/(?=<g id="b\d+" class="measure")/)
    .find((text) => text.startsWith(`<g id="b${bar}"`));
  return own?.match(/class="clef"/g)?.length ?? 0;
};

describe("an ossia that runs on to a new line", () => {
  it("shows its clef there too, in the engraver's own lines and in others", async () => {
    const { toolkit } = await openEngraver();
    const engrave = (...rewrites: RewriteTerms[]) => {
      const tree = source(bars, bars);
      const written = writeRewrites(tree, scoreFromTree(tree).score, rewrites);
      return new LineEngraver(toolkit, written, screenLayouts.tablet, {});
    };
    const plain = engrave().inOwnLines();
    const next = plain[1]!.firstBarIndex;
    const over = engrave(ossiaFrom(next - 1));
    const sketched = over.inOwnLines();
    expect(over.isSketch).toBe(true);
    expect(clefsIn(sketched, next) - clefsIn(plain, next)).toBe(0);
    const own = over.inLines(sketched.slice(1).map(({ firstBarIndex }) => firstBarIndex));
    expect(own.map(({ firstBarIndex }) => firstBarIndex)).toEqual(
      plain.map(({ firstBarIndex }) => firstBarIndex),
    );
    expect(clefsIn(own, next) - clefsIn(plain, next)).toBe(1);
    expect(clefsIn(own, next - 1) - clefsIn(plain, next - 1)).toBe(1);

    // In other lines the bar stands inside a line, and its ossia goes on as before.
    const others = over.inLines([next - 1, next + 3]);
    expect(clefsIn(others, next)).toBe(0);
    const again = over.inLines([next, next + 4]);
    expect(clefsIn(again, next)).toBe(clefsIn(own, next));
  });
});

describe("showOssiaClefs", () => {
  const measure = (id: string, inner: string) => `<measure xml:id="${id}">${inner}</measure>`;
  const mei =
    measure("b1", "<ossia><oStaff/></ossia>") +
    measure("b2", "<ossia><oStaff/></ossia>") +
    measure("b3", "<staff/>");

  it("changes only the measures that are named, where an ossia goes on", () => {
    const shown = showOssiaClefs(mei, ["b2", "b3", "b9", ""]);
    expect(shown).toBe(mei.replace(/(b2">)<ossia>/, '$1<ossia type="show.scoredef.true">'));
    expect(showOssiaClefs(shown, ["b2"])).toBe(shown);
    expect(showOssiaClefs(measure("b1", "<staff/>"), ["b1"])).toBe(measure("b1", "<staff/>"));
  });
});
