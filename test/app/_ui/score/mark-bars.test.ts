import { describe, expect, test } from "vitest";
import { layoutFor } from "@/app/_ui/score/engraving";
import { type Marking, spanOf, tapBar } from "@/app/_ui/score/mark-bars";
import { saySoloBar } from "@/app/_ui/score/say-solo";

describe("marking bars", () => {
  const afterTaps = (...bars: readonly number[]) =>
    bars.reduce<Marking | null>((marking, bar) => tapBar(marking, bar), null);

  test("a tap marks a bar, the second marks up to there, either way", () => {
    expect(afterTaps(8)).toEqual({ anchor: 8, head: 8 });
    expect(spanOf(afterTaps(8, 12) as Marking)).toEqual({ firstBar: 8, lastBar: 12 });
    expect(spanOf(afterTaps(8, 3) as Marking)).toEqual({ firstBar: 3, lastBar: 8 });
  });

  test("the third begins again; the same bar twice lets go", () => {
    expect(afterTaps(8, 12, 20)).toEqual({ anchor: 20, head: 20 });
    expect(afterTaps(8, 8)).toBeNull();
  });

  test("with Shift the beginning stays", () => {
    const marking = tapBar(afterTaps(8, 12), 30, true);
    expect(marking).toEqual({ anchor: 8, head: 30 });
    expect(tapBar(marking, 2, true)).toEqual({ anchor: 8, head: 2 });
  });
});

describe("a bar of the solo in words", () => {
  test.each([
    ["12", "1:F#4 2.5:Bb4", "bar 12: beat 1 F sharp 4, beat 2.5 B flat 4"],
    ["7", "1:C5", "bar 7: beat 1 C 5"],
    ["8", "", "bar 8: solo rests"],
    ["9", "1:Ebb3 2:G##-1", "bar 9: beat 1 E double flat 3, beat 2 G double sharp -1"],
  ])("%s %s", (label, solo, words) => expect(saySoloBar(label, solo)).toBe(words));
});

test.each([
  [366, "phone"],
  [800, "tablet"],
  [900, "desk"],
] as const)("a page %d px wide is engraved for the %s", (width, layout) => {
  expect(layoutFor(width)).toBe(layout);
});
