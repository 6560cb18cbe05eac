import { describe, expect, test } from "vitest";
import type { Desk, DeskTutti } from "@/app/_data/desk/desk";
import {
  lengthProblem,
  lettersWithin,
  namePlaceOfSearch,
  type SearchPlace,
  sayKept,
  settingsFor,
  spanOfPlace,
  toCutSearch,
  tuttiOfCut,
} from "@/app/(desk)/pieces/[pieceId]/_search/search-settings";
import { at } from "@/test/builders/build-score";
import { proposal } from "./desk-of-concertino";

const barCount = 20;
const bars: Desk["bars"] = Array.from({ length: barCount }, (_, index) => ({
  ...{ label: `${index + 1}`, length: "4", beats: ["0", "1", "2", "3"], solo: "" },
}));
const tutti = (from: number, to: number, letter: string | null): DeskTutti => ({
  ...{ from: from * 2, to: to * 2, place: "interlude", barCount: to - from, isLong: false, letter },
  ...{ firstLabel: `${from + 1}`, lastLabel: `${to}` },
  start: { barIndex: from, offset: "0" },
  end: { barIndex: to, offset: "0" },
});
const strip = {
  bars: bars.map(({ label }, barIndex) => ({ label, barIndex, from: 2 * barIndex, to: 2 * barIndex + 2 })),
  letters: [
    { at: 0, text: "A" },
    { at: 20, text: "B" },
  ],
} as unknown as Desk["strip"];
const desk = { bars, strip, tuttis: [tutti(0, 6, null), tutti(10, 16, "B")], cuts: [], needs: [] };

describe("where cuts are looked for", () => {
  test.each<[string, SearchPlace, [number, number] | null]>([
    ["Tutti at B, bars 11–16", { kind: "tutti", index: 1 }, [10, 16]],
    ["a tutti that is no longer there", { kind: "tutti", index: 7 }, null],
    ["Marked bars 4–6", { kind: "marked", span: { firstBar: 3, lastBar: 5 } }, [3, 6]],
    ["From bar 13 to the next entry", { kind: "from-here", bar: 12 }, [12, 16]],
    ["From bar 8 to the next entry", { kind: "from-here", bar: 7 }, [7, 16]],
    ["From bar 19 to the next entry", { kind: "from-here", bar: 18 }, null],
    ["Start at: leave the beginning out", { kind: "start" }, [0, 6]],
  ])("%s", (name, place, span) => {
    const ends = spanOfPlace(desk, place);
    expect(namePlaceOfSearch(desk, place)).toBe(name);
    expect(ends && [ends.from.barIndex, ends.to.barIndex]).toEqual(span);
  });

  test("marked to the last bar reaches the end of the piece, which is no bar line", () => {
    const place: SearchPlace = { kind: "marked", span: { firstBar: 18, lastBar: 19 } };
    expect(spanOfPlace(desk, place)?.to).toEqual({ barIndex: 19, offset: "4" });
  });

  test("from here means that the cut begins here; a later beginning is a search of its own", () => {
    expect(toCutSearch(desk, settingsFor({ kind: "from-here", bar: 12 }))?.filters.from).toEqual(at(12));
    expect(toCutSearch(desk, settingsFor({ kind: "start" }))).toMatchObject({ look: "starts" });
    expect(toCutSearch(desk, settingsFor({ kind: "from-here", bar: 18 }))).toBeNull();
  });

  test("what was chosen to stay is asked for, and nothing else", () => {
    const plain = settingsFor({ kind: "tutti", index: 1 });
    expect(toCutSearch(desk, plain)?.filters).toEqual({ resolution: "bars" });
    const chosen = {
      ...plain,
      ...{ resolution: "beats" as const, keepLastBars: 4, keepRehearsal: ["B"] },
      ...{ keepTheme: true, savesAtLeast: "0:20" },
    };
    expect(toCutSearch(desk, chosen)?.filters).toEqual({
      ...{ resolution: "beats", keepLastBars: 4, keepRehearsal: ["B"], keepTheme: true, leastSeconds: 20 },
    });
    expect([sayKept(plain), sayKept(chosen)]).toEqual([
      "Nothing more to keep; whole bars",
      "Keep the last 4 bars, letter B, every theme; save 0:20 or more; by beats",
    ]);
  });

  test("agreed cuts are counted, but for the one that would give way", () => {
    const agreed = [
      proposal({ id: "a", number: 1, state: "agreed" }),
      proposal({ id: "b", number: 3, state: "agreed", from: { barIndex: 7, offset: "0" } }),
      proposal({ id: "c", number: 4, state: "agreed", isStale: true }),
      proposal({ id: "d", number: 5 }),
    ];
    const settings = settingsFor({ kind: "tutti", index: 1 });
    expect(toCutSearch({ ...desk, cuts: agreed }, settings)?.agreed).toHaveLength(2);
    expect(toCutSearch({ ...desk, cuts: agreed }, settings, 3)?.agreed).toHaveLength(1);
  });
});

test("the letters of a stretch, the one at its end left out", () => {
  const ends = (from: number, to: number) => ({
    from: { barIndex: from, offset: "0" },
    to: { barIndex: to, offset: "0" },
  });
  expect(lettersWithin(desk, ends(0, 10))).toEqual(["A"]);
  expect(lettersWithin(desk, ends(0, 11))).toEqual(["A", "B"]);
});

test("a cut belongs to the tutti that it has most of", () => {
  expect(tuttiOfCut(desk, [{ from: 10, to: 26 }])).toBe(1);
  expect(tuttiOfCut(desk, [{ from: 13, to: 19 }])).toBeNull();
});

test.each([
  ["", null],
  ["0:20", null],
  ["twenty", "Write it as minutes and seconds: 0:20."],
])("a length typed as %j", (text, problem) => {
  expect(lengthProblem(text)).toBe(problem);
});
