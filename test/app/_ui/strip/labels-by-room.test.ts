import { describe, expect, test } from "vitest";
import { bridgePath, placeCuts } from "@/app/_ui/strip/cut-shapes";
import { placeMinutes } from "@/app/_ui/strip/minutes";
import { placeBreaths, placeNotes } from "@/app/_ui/strip/note-pins";
import { makeScale } from "@/app/_ui/strip/scale";
import { placePlayed, placeRests } from "@/app/_ui/strip/solo-row";
import type { StripCut, StripNote, StripTutti } from "@/app/_ui/strip/strip-piece";
import { placeLetters, placeTempi } from "@/app/_ui/strip/top-labels";

const tutti = (from: number, to: number, barCount = 24): StripTutti => ({
  from,
  to,
  barCount,
  firstLabel: "1",
  lastLabel: "24",
});
const cut = (from: number, to: number, state: "open" | "agreed" = "open"): StripCut => ({
  id: `cut ${from}`,
  number: 1,
  state,
  ink: "so",
  name: "bars 9–20",
  barCount: 12,
  savedSeconds: to - from,
  gaps: [{ from, to }],
});

describe("a tutti's label", () => {
  // Widths are 1 px a second; 4 px go to the ends of the rest bar.
  const scale = makeScale(1000, 1000);
  test.each([
    [80, { kind: "line", bars: "24", time: "1:20" }],
    [79, { kind: "stacked", bars: "24", time: "1:19" }],
    [30, { kind: "stacked", bars: "24", time: "0:30" }],
    [29, { kind: "bars", bars: "24" }],
    [14, { kind: "bars", bars: "24" }],
    [13, null],
  ])("%d px wide", (width, expected) => {
    expect(placeRests([tutti(100, 100 + width)], [], scale)[0]?.label).toEqual(expected);
  });

  test("moves to the wider side when a cut covers its middle", () => {
    const [rest] = placeRests([tutti(100, 200)], [cut(120, 160)], scale);
    expect(rest?.label?.kind).toBe("stacked");
    expect(rest?.labelX).toBe(180);
  });

  test("is left out when the cut takes the whole tutti", () => {
    expect(placeRests([tutti(100, 200)], [cut(100, 200)], scale)[0]?.label).toBeNull();
  });
});

describe("where the solo plays", () => {
  test("says how long, where there is room", () => {
    const scale = makeScale(300, 300);
    const [long, short] = placePlayed(
      [
        { from: 0, to: 90 },
        { from: 120, to: 180 },
      ],
      [],
      [],
      scale,
    );
    expect(long?.label).toBe("plays 1:30");
    expect(short?.label).toBeNull();
  });

  test("breaths are notches, away from the words and the ends", () => {
    const scale = makeScale(300, 600);
    const breaths = [1, 20, 45, 80].map((at) => ({ at, isAgreed: true }));
    const [box] = placePlayed([{ from: 0, to: 90 }], breaths, [], scale);
    expect(box?.notches).toEqual([40, 160]);
  });

  test("notches go when a second has less than a pixel", () => {
    const [box] = placePlayed(
      [{ from: 0, to: 900 }],
      [{ at: 200, isAgreed: true }],
      [],
      makeScale(1000, 900),
    );
    expect(box?.notches).toEqual([]);
  });
});

describe("letters and tempi", () => {
  const letter = (at: number, text: string) => ({ at, text });
  test("of two boxes that would overlap the later one keeps its tick", () => {
    const boxes = placeLetters([letter(10, "B"), letter(20, "C"), letter(40, "D")], makeScale(100, 100));
    expect(boxes.map((box) => box.text)).toEqual(["B", "", "D"]);
    expect(boxes.map((box) => box.x)).toEqual([10, 20, 40]);
  });

  test("a tempo that would run into the one before is left out", () => {
    const scale = makeScale(600, 600);
    const labels = placeTempi(
      [
        { at: 0, words: "Allegro risoluto", beats: "110" },
        { at: 60, words: "Poco meno", beats: "96" },
        { at: 200, words: null, beats: "44" },
        { at: 300, words: null, beats: null },
      ],
      scale,
    );
    expect(labels.map((label) => label.words)).toEqual(["Allegro risoluto", ""]);
  });
});

describe("cuts on the strip", () => {
  test("one shape for each time the cut bars would sound", () => {
    const twice: StripCut = {
      ...cut(10, 20),
      gaps: [
        { from: 10, to: 20 },
        { from: 60, to: 70 },
      ],
    };
    const shapes = placeCuts([twice], makeScale(100, 1000), false);
    expect(shapes.map(({ x, end }) => [x, end])).toEqual([
      [100, 200],
      [600, 700],
    ]);
    expect(shapes[0]?.saved).toBe("−0:10");
  });

  test("an agreed cut closes to a seam as played, an open one does not", () => {
    const cuts = [cut(10, 20, "agreed"), cut(40, 50)];
    const scale = makeScale(100, 900, [{ from: 10, to: 20 }]);
    expect(placeCuts(cuts, scale, true).map((shape) => [shape.isClosed, shape.x, shape.end])).toEqual([
      [true, 100, 100],
      [false, 300, 400],
    ]);
  });

  test("the words of cuts that stand close leave one another room", () => {
    const words = (...cuts: readonly StripCut[]) =>
      placeCuts(cuts, makeScale(100, 1000), false).map(({ hasVi, hasDe }) => [hasVi, hasDe]);
    expect(words(cut(10, 20), cut(40, 50))).toEqual([
      [true, true],
      [true, true],
    ]);
    expect(words(cut(10, 20), cut(24, 30))).toEqual([
      [true, true],
      [false, true],
    ]);
    expect(words(cut(10, 20), cut(20, 30))).toEqual([
      [true, false],
      [false, true],
    ]);
    expect(words(cut(10, 10.5))).toEqual([[false, false]]);
  });

  test("the bridge starts and ends on the edges and closes when it is filled", () => {
    expect(bridgePath(100, 200, 80, 21, 0)).toBe("M100 80C116 59 184 59 200 80");
    expect(bridgePath(100, 200, 80, 18, 4)).toMatch(/^M100 80C.* 200 80C.* 100 80Z$/);
  });
});

describe("notes, breaths, minutes", () => {
  const note = (at: number, ink: StripNote["ink"]): StripNote => ({ at, id: `${at}`, ink });
  test("notes within 17 px are one pin with a count, in the ink of most of them", () => {
    const pins = placeNotes(
      [note(10, "pf"), note(15, "so"), note(18, "so"), note(60, "pf")],
      makeScale(100, 200),
    );
    expect(pins.map((pin) => [pin.x, pin.ink, pin.notes.length])).toEqual([
      [20, "so", 3],
      [120, "pf", 1],
    ]);
  });

  test("an agreed cut takes its breaths with it", () => {
    const breaths = [{ at: 5 }, { at: 15 }, { at: 30 }];
    const placed = placeBreaths(breaths, [{ from: 10, to: 20 }], makeScale(100, 1000));
    expect(placed.map(({ x }) => x)).toEqual([50, 300]);
  });

  test("minutes stay 50 px apart and leave room for the total and the frame's label", () => {
    const marks = placeMinutes(754, 986, { from: 250, to: 318 });
    expect(marks.map((mark) => mark.text)).toEqual([
      "0:00",
      "1:00",
      "2:00",
      null,
      null,
      "5:00",
      "6:00",
      "7:00",
      "8:00",
      "9:00",
      "10:00",
      "11:00",
      null,
    ]);
  });
});
