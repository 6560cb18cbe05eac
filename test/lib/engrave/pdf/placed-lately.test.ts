import { describe, expect, it } from "vitest";
import type { LaidOutEdition } from "@/lib/engrave/pages/laid-out-edition";
import { placedLately } from "@/lib/engrave/pdf/placed-lately";
import type { PrintInput } from "@/lib/engrave/pdf/print-input";
import { defaultPrintOptions } from "@/lib/engrave/pdf/print-options";
import { quarters } from "@/lib/score/quarters";

const start = (barIndex: number) => ({ barIndex, offset: quarters(0) });

function inputOf(number: number): PrintInput {
  return {
    sourceMusicXml: new Uint8Array([1, 2, 3]),
    partRoles: { P1: "solo", P2: "reduction" },
    cuts: [{ from: start(3), to: start(5) }],
    options: defaultPrintOptions("pianist"),
    titleBlock: {
      ...{ title: "Concertino", movement: null, composer: null, soloInstrument: null },
      ...{ editionNumber: number, frozenOn: "2026-01-01", hash: "0".repeat(64), players: [] },
    },
  };
}

/** What is laid out for an input, and whether that had to be done for it. */
function ask(input: PrintInput): { readonly pages: LaidOutEdition; readonly isMade: boolean } {
  let isMade = false;
  const pages = placedLately(input, () => {
    isMade = true;
    return { width: 0, height: 0, pages: [], bars: [], rendererVersion: "" };
  });
  return { pages, isMade };
}

describe("placedLately", () => {
  it("lays the same edition out once", () => {
    const first = ask(inputOf(1));
    expect(first.isMade).toBe(true);
    expect(ask(inputOf(1))).toEqual({ pages: first.pages, isMade: false });
    expect(ask(inputOf(1)).pages).toBe(first.pages);
  });

  const base = inputOf(2);
  const differing: readonly [string, PrintInput][] = [
    ["a byte of the music", { ...base, sourceMusicXml: new Uint8Array([1, 2, 4]) }],
    ["a role", { ...base, partRoles: { P1: "solo", P2: "solo" } }],
    [
      "a cut by an eighth",
      { ...base, cuts: [{ from: start(3), to: { barIndex: 5, offset: quarters(1, 2) } }] },
    ],
    ["the paper", { ...base, options: { ...base.options, paper: "Letter" } }],
    ["the title", { ...base, titleBlock: { ...base.titleBlock, title: "Concertina" } }],
    ["a pinned page", { ...base, pinnedBars: [7] }],
    ["the tempo", { ...base, tempo: { fermataFactor: 1.5 } }],
    [
      "a mark",
      {
        ...base,
        marks: { breaths: [{ at: { barIndex: 2, offset: "0" } }], cues: [], rewrites: [], remarks: [] },
      },
    ],
  ];
  it.each(differing)("lays it out anew when %s is another", (_, other) => {
    ask(base);
    expect(ask(other).isMade).toBe(true);
  });

  it("keeps the last three", () => {
    for (const number of [11, 12, 13, 11, 14]) ask(inputOf(number));
    expect([13, 11, 14].map((number) => ask(inputOf(number)).isMade)).toEqual([false, false, false]);
    expect(ask(inputOf(12)).isMade).toBe(true);
  });
});
