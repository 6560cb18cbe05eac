import { describe, expect, test } from "vitest";
import { assessHands } from "@/lib/hands/assess-hands";
import { type BarUnderHands, barAtTempo } from "@/lib/hands/at-tempo";
import { usualHands } from "@/lib/hands/hands-profile";
import { sayStrain } from "@/lib/hands/say-strain";
import type { Tremolo } from "@/lib/score/note";
import { quarters } from "@/lib/score/quarters";
import { readTempoMap } from "@/lib/score/tempo-map";
import { buildScore } from "@/test/builders/build-score";

const times = (tokens: string, count: number) => Array.from({ length: count }, () => tokens).join(" ");

/** The last bar of a piano part under usual hands. */
function judge(tempo: number, right: string, left: string, tremolo: Tremolo | null = null): BarUnderHands {
  const bars = right.split("|").length;
  const score = buildScore({ metre: "4/4", tempo, solo: `R*${bars}`, piano: [right, left] });
  const parts = score.parts.map((part) => ({
    ...part,
    notes: part.notes.map((note) =>
      tremolo && note.staff === 1 && !note.isChordMember ? { ...note, tremolo } : note,
    ),
  }));
  const marked = { ...score, parts };
  const last = assessHands(marked, readTempoMap(marked), usualHands).bars.at(-1);
  if (!last) throw new RangeError("a score without bars");
  return barAtTempo(last, 1);
}

const heaviest = ({ printed }: BarUnderHands) => printed?.strains[0];

// What pianists say of such places: common practice.
describe("a hand that rocks", () => {
  test("does so at a speed at which it could not repeat the same chords", () => {
    const left = times("c3+d3:t f#3+a3", 16);
    expect(judge(80, "r:w", left).verdict).toBe("easy");
    expect(judge(80, "r:w", times("c3+d3:t", 32)).verdict).not.toBe("easy");
  });

  test("is counted in notes, with what lies well in rocking", () => {
    const strain = heaviest(judge(140, "r:w", times("c2:t c3", 16)));
    expect(strain).toMatchObject({ kind: "run", hand: "left" });
    expect(strain?.figure).toBeCloseTo(18.7, 1);
    expect(strain?.limit).toBeCloseTo(2 * usualHands.repeatedNotes, 9);
  });

  test("gains nothing on scales, thirds and octaves", () => {
    for (const line of [times("c5:t d5 e5 f5 g5 f5 e5 d5", 4), times("c5+c6:s d5+d6 e5+e6 f5+f6", 4)])
      expect(heaviest(judge(120, line, "r:w"))?.load).toBeGreaterThan(1.4);
  });
});

describe("a chord a little wider than the hand", () => {
  test("is broken by custom: awkward, not impossible", () => {
    const bar = judge(60, "c5+f6:h c5+f6:h", "c2+f3:h c2+f3:h");
    expect(bar.verdict).toBe("awkward");
    const strain = heaviest(bar);
    expect(strain && sayStrain(strain)).toMatch(
      /an eleventh struck together, to be broken; a ninth lies well/,
    );
  });

  test("much wider, it cannot be done", () =>
    expect(judge(60, "c5+a6:h c5+a6:h", "c2+a3:h c2+a3:h").verdict).toBe("not playable"));
});

test("a turn is no run", () => {
  const turn = "a4:q c5:1/10 d5:1/10 c5:1/10 b4:1/10 c5:1/10 d5:h c5:e";
  expect(heaviest(judge(126, turn, "r:w"))?.load).toBeLessThan(1);
});

test("a leap is told where it happens, though the hand has other notes after it", () => {
  const left = `${times("c4:s g4", 8)} | ${times("c2:s c3", 8)}`;
  const strain = heaviest(judge(120, "R | R", left));
  expect(strain).toMatchObject({ kind: "leap", at: { barIndex: 1, offset: quarters(0) } });
});

describe("strokes of a tremolo", () => {
  const octaves = "g4+g5:q g4+g5:q g4+g5:q g4+g5:q";

  test("are those of the whole chord, in triplets where it stands in triplets", () => {
    const tuplet = { actual: 3, normal: 2 };
    const strain = heaviest(judge(152, octaves, "r:w", { type: "single", marks: 1, tuplet }));
    expect(strain?.kind).toBe("repeated chord");
    expect(strain?.figure).toBeCloseTo((3 * 152) / 60, 9);
  });

  test("are halves of the beat where it does not", () => {
    const strain = heaviest(judge(152, octaves, "r:w", { type: "single", marks: 1 }));
    expect(strain?.figure).toBeCloseTo((2 * 152) / 60, 9);
  });
});
