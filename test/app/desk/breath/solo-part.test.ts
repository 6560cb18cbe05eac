import { describe, expect, test } from "vitest";
import { listSoloNotes } from "@/app/_data/desk/read-breath";
import type { EngravedSystem } from "@/app/_ui/score/engraving";
import { findPageSpans, wordsAt } from "@/app/(desk)/pieces/[pieceId]/breath/_components/bracket-spans";
import { layBrackets } from "@/app/(desk)/pieces/[pieceId]/breath/_components/brackets";
import {
  commaX,
  endX,
  noteAtX,
  startX,
} from "@/app/(desk)/pieces/[pieceId]/breath/_components/place-on-system";
import { sayBeatOf } from "@/app/(desk)/pieces/[pieceId]/breath/_components/say-beat";
import {
  findPlaces,
  indexNotes,
  keyOfPlace,
  keyOfPosition,
} from "@/app/(desk)/pieces/[pieceId]/breath/_components/solo-places";
import { assessBreath } from "@/lib/breath/assess-breath";
import { readTempoMap } from "@/lib/score/tempo-map";
import { at, buildScore } from "../../../builders/build-score";
import { bars } from "../talk/people-and-bars";

/** Four quarters, a tie over the bar line, a chord, a grace note, a rest. */
const score = buildScore({
  tempo: 60,
  solo: "c5:q d5:q e5:q f5:q | g5:w~ | g5:h a5+c6:h | r:q b5:e(grace) c6:q d6:h",
});
const notes = listSoloNotes(score);

describe("places for a breath", () => {
  test("are after each note but inside a tie, the end of a bar being the start of the next", () => {
    expect(findPlaces(bars, notes).map(({ key }) => key)).toEqual([
      ...["0 1", "0 2", "0 3", "1 0"],
      ...["2 2", "3 0"],
      ...["3 2", "4 0"],
    ]);
  });

  test("are named as players name them", () => {
    expect(findPlaces(bars, notes)[1]).toMatchObject({
      name: "bar 1, after beat 2",
      says: "Bar 1, beat 2: D5",
    });
  });

  test.each([
    ["a place in a bar", { barIndex: 2, offset: "3/2" }, "2 3/2"],
    ["the end of a bar", { barIndex: 2, offset: "4" }, "3 0"],
    ["the end of the piece", { barIndex: 19, offset: "4" }, "19 4"],
  ])("%s has one key", (_, place, key) => {
    expect(keyOfPlace(bars, place)).toBe(key);
  });
});

test.each([
  [["0", "1", "2", "3"], "0", "1"],
  [["0", "1", "2", "3"], "3/2", "2½"],
  [["0", "3/2"], "3/2", "2"],
  [["0", "1"], "1/3", "1.33"],
])("with beats at %j the offset %s is beat %s", (beats, offset, beat) => {
  expect(sayBeatOf({ beats }, offset)).toBe(beat);
});

const box = (barIndex: number, x: number, width: number) => ({
  ...{ barIndex, x, width, top: 100, bottom: 200 },
  staves: [{ top: 100, bottom: 200 }],
});
const system: EngravedSystem = {
  ...{ index: 0, width: 1000, height: 300, firstBarIndex: 0, lastBarIndex: 1 },
  bars: [box(0, 0, 500), box(1, 500, 500)],
};
const head = (id: string, left: number) => ({ id, left, right: left + 20, top: 120 });
const heads = notes.slice(0, 5).map(({ id }, index) => head(id, 100 + index * 100));
const idOf = (index: number) => notes[index]?.id ?? "";

describe("a touch on the part", () => {
  test.each([
    ["on a note means that note", 205, 1],
    ["between two notes means the one before", 260, 1],
    ["a little left of a note means that note", 297, 2],
    ["right of the last means the last", 990, 4],
  ])("%s", (_, x, index) => {
    expect(noteAtX(heads, x, 4)?.id).toBe(idOf(index));
  });

  test("before the first note means none", () => {
    expect(noteAtX(heads, 20, 4)).toBeNull();
  });
});

test("a comma stands midway to the next note, after the last close to it, and nowhere for a note of another system", () => {
  expect(commaX(heads, idOf(1))).toBe(260);
  expect(commaX(heads, idOf(4))).toBe(610);
  expect(commaX(heads, "elsewhere")).toBeNull();
});

test("a bracket begins at its note, ends at the comma, and without a note by the clock of the bar", () => {
  const ends = indexNotes(bars, notes);
  const drawn = { system, lastBar: 1, notes: heads };
  expect(startX(bars, ends, drawn, { barIndex: 0, offset: "1" })).toBe(200);
  expect(endX(bars, ends, drawn, { barIndex: 1, offset: "0" })).toBe(460);
  expect(startX(bars, ends, drawn, { barIndex: 1, offset: "2" })).toBe(750);
});

describe("where a stretch lies on the page", () => {
  const straight = [0, 1, 2, 3, 4, 5].map((barIndex) => ({ barIndex }));
  const repeated = [0, 1, 2, 1, 2, 3].map((barIndex) => ({ barIndex }));
  test.each([
    ["from place to place", at(1, 2), at(3, 1), straight, [], [[at(1, 2), at(3, 1)]]],
    [
      "without what is cut",
      at(0),
      at(5),
      straight,
      [{ from: at(1), to: at(4) }],
      [
        [at(0), at(1)],
        [at(4), at(5)],
      ],
    ],
    ["a cut beside it takes nothing", at(0), at(2), straight, [{ from: at(2), to: at(4) }], [[at(0), at(2)]]],
    [
      "through a repeat in two runs",
      at(2, 2),
      at(1, 3),
      repeated,
      [],
      [
        [at(2, 2), at(3)],
        [at(1), at(1, 3)],
      ],
    ],
    [
      "through a repeat up to a bar line",
      at(2),
      at(2),
      repeated,
      [],
      [
        [at(2), at(3)],
        [at(1), at(2)],
      ],
    ],
  ])("%s", (_, from, to, played, cuts, runs) => {
    expect(findPageSpans({ from, to }, played, cuts)).toEqual(
      runs.map(([start, end]) => ({ from: start, to: end })),
    );
  });

  test.each([
    ["in one system", at(1), at(2), 0],
    ["where more bars of it stand", at(3), at(9), 4],
    ["in the first of two equals", at(2), at(6), 0],
    ["a run that ends with a system does not reach the next", at(3), at(4), 0],
  ])("its words stand %s", (_, from, to, first) => {
    expect(wordsAt({ from, to }, [0, 4, 12])).toBe(first);
  });
});

describe("brackets", () => {
  const lay = (marks: readonly ReturnType<typeof at>[], seen: ReturnType<typeof at> | null) => {
    const preferences = { comfortableSeconds: 6, windowSeconds: 60 };
    const report = assessBreath(score, readTempoMap(score), [], { marks, preferences });
    if (!report) throw new RangeError("nothing is played");
    const played = score.bars.map(({ index }) => ({ barIndex: index }));
    const isSeen = (place: ReturnType<typeof at>) =>
      seen !== null && keyOfPosition(bars, place) === keyOfPosition(bars, seen);
    return layBrackets(report, played, [], isSeen).map(({ words, isLong, level }) => [words, isLong, level]);
  };

  test("tell the time from breath to breath, and which is too long", () => {
    expect(lay([], null)).toEqual([
      ["12 s", true, 0],
      ["3 s", false, 0],
    ]);
    expect(lay([at(1)], null)).toEqual([
      ["4 s", false, 0],
      ["8 s", true, 0],
      ["3 s", false, 0],
    ]);
  });

  test("under the breath that is looked at, how long it would be without it", () => {
    expect(lay([at(1)], at(1))).toContainEqual(["12 s without it", true, 1]);
    expect(lay([at(1), at(2, 2)], at(1)).filter(([, , level]) => level === 1)).toEqual([
      ["10 s without it", true, 1],
    ]);
  });
});
