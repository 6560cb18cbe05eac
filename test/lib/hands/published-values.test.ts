import { describe, expect, test } from "vitest";
import { assessHands } from "@/lib/hands/assess-hands";
import { barAtTempo } from "@/lib/hands/at-tempo";
import { type Finger, pairSpan } from "@/lib/hands/fingering/pair-spans";
import { handPresets } from "@/lib/hands/hand-presets";
import { actionStrokes, handsProfileSchema, usualHands } from "@/lib/hands/hands-profile";
import { keyMillimetres, octaveMillimetres, reachOfSpan } from "@/lib/hands/reach-of-span";
import { leapSeconds } from "@/lib/hands/strains/leap";
import { readTempoMap } from "@/lib/score/tempo-map";
import { buildScore } from "@/test/builders/build-score";

// Source: Parncutt, Sloboda, Clarke, Raekallio & Desain 1997, "An ergonomic model of keyboard fingering for melodic
// fragments", Music Perception 14(4), table of finger spans: right hand, ascending, in semitones; least and most that is
// practical, comfortable, relaxed.
const spans: readonly [Finger, Finger, readonly number[]][] = [
  [1, 2, [-5, -3, 1, 5, 8, 10]],
  [1, 3, [-4, -2, 3, 7, 10, 12]],
  [1, 4, [-3, -1, 5, 9, 12, 14]],
  [1, 5, [-1, 1, 7, 10, 13, 15]],
  [2, 3, [1, 1, 1, 2, 3, 5]],
  [2, 4, [1, 1, 3, 4, 5, 7]],
  [2, 5, [2, 2, 5, 6, 8, 10]],
  [3, 4, [1, 1, 1, 2, 2, 4]],
  [3, 5, [1, 1, 3, 4, 5, 7]],
  [4, 5, [1, 1, 1, 2, 3, 5]],
];

describe("finger spans (Parncutt et al. 1997)", () => {
  test.each(spans)("from %i to %i, and back negated and swapped", (a, b, row) => {
    expect(Object.values(pairSpan(a, b) ?? {})).toEqual(row);
    expect(Object.values(pairSpan(b, a) ?? {})).toEqual(row.map((value) => -value).reverse());
  });

  test("a finger has no span to itself", () => expect(pairSpan(3, 3)).toBeNull());
});

const centimetresPerInch = 2.54;

describe("spans of hands (Boyle, Boyle & Booker 2015, 473 adult pianists)", () => {
  test.each([
    { what: "an octave takes 6.5 inches", inches: 6.5, possible: 12 },
    { what: "and not less", inches: 6.45, possible: 11 },
    { what: "a tenth takes 8.5 inches", inches: 8.5, possible: 16 },
    { what: "and not less", inches: 8.45, possible: 14 },
    { what: "the women's mean, 7.9 inches, lies under a tenth", inches: 7.9, possible: 14 },
    { what: "the men's mean, an inch more, reaches it", inches: 8.9, possible: 16 },
  ])("$what", ({ inches, possible }) => {
    expect(reachOfSpan(Math.round(inches * centimetresPerInch * 10) / 10).possible).toBe(possible);
  });

  // The published means, and the tenths of the two normal distributions that have those means and the published shares
  // below 8.5 inches: 87 % of women, 24 % of men (calculated).
  const upTo = { "10 %": -1.2816, "24 %": -0.7063, "87 %": 1.1264, "90 %": 1.2816 };
  const women = { mean: 7.9, deviation: (8.5 - 7.9) / upTo["87 %"] };
  const men = { mean: 8.9, deviation: (8.5 - 8.9) / upTo["24 %"] };
  test.each([
    ["small hands", women.mean + upTo["10 %"] * women.deviation, { comfortable: 11, possible: 12 }],
    ["smaller hands", women.mean, { comfortable: 12, possible: 14 }],
    ["usual hands", men.mean, { comfortable: 14, possible: 16 }],
    ["larger hands", men.mean + upTo["90 %"] * men.deviation, { comfortable: 16, possible: 17 }],
  ])("%s", (name, inches, reach) => {
    const preset = handPresets.find((each) => each.name === name);
    expect(preset?.spanCentimetres).toBeCloseTo(inches * centimetresPerInch, 1);
    expect([preset?.hands.left, preset?.hands.right]).toEqual([reach, reach]);
    expect(preset?.source).toContain("Boyle, Boyle & Booker 2015");
  });

  test("the presets are profiles, from the smallest on, and differ in reach alone", () => {
    const reaches = handPresets.map(({ hands }) => hands.right.possible);
    expect(reaches).toEqual(reaches.toSorted((a, b) => a - b));
    for (const { hands } of handPresets) {
      expect(handsProfileSchema.parse(hands)).toEqual({
        ...usualHands,
        left: hands.left,
        right: hands.right,
      });
    }
    expect(handPresets.map(({ hands }) => hands)).toContainEqual(usualHands);
  });
});

// Arithmetic: key centres of a piano lie 23.5 mm apart.
describe("widths of intervals between centres of white keys, in millimetres", () => {
  test.each([
    ["octave", 7, 164.5],
    ["ninth", 8, 188],
    ["tenth", 9, 211.5],
    ["eleventh", 10, 235],
  ])("%s", (_name, keys, millimetres) => expect(keys * keyMillimetres).toBe(millimetres));

  test("an octave", () => expect(octaveMillimetres).toBe(7 * keyMillimetres));
});

describe("leaps (Fitts 1954: the index of difficulty is log2(2D ÷ W), W one white key)", () => {
  const leaps = [
    { name: "octave", semitones: 12, keys: 7, bits: 3.81 },
    { name: "tenth", semitones: 16, keys: 9, bits: 4.17 },
    { name: "two octaves", semitones: 24, keys: 14, bits: 4.81 },
  ];

  test.each(leaps)("$name: $bits bits", ({ keys, bits }) => {
    expect(Math.log2((2 * keys * keyMillimetres) / keyMillimetres)).toBeCloseTo(bits, 2);
  });

  // No constants are published for the piano: the index ranks, and in Shannon's form an octave counts three bits.
  test("our seconds rank as the index does", () => {
    const seconds = leaps.map(({ semitones }) => leapSeconds(semitones));
    expect(seconds).toEqual(seconds.toSorted((a, b) => a - b));
    expect(leapSeconds(12) / leapSeconds(24)).toBeCloseTo(3 / Math.log2(15), 12);
    expect(leapSeconds(0)).toBe(0);
  });
});

/** What a bar of one key struck again asks of usual hands. */
function repeated(tempo: number, value: "s" | "t") {
  const count = value === "s" ? 16 : 32;
  const line = Array.from({ length: count }, () => `a4:${value}`).join(" ");
  const score = buildScore({ metre: "4/4", tempo, solo: "R", piano: [line, "r:w"] });
  const [bar] = assessHands(score, readTempoMap(score), usualHands).bars;
  if (!bar) throw new RangeError("a score without bars");
  const strain = bar.options?.printed.strains.find(({ kind }) => kind === "repeated note");
  return { strain, verdict: barAtTempo(bar, 1).verdict };
}

// Arithmetic of the metronome: 60 seconds, so many beats a minute, four sixteenths a beat.
describe("sixteenths, strokes a second", () => {
  test.each([
    [72, 4.8],
    [96, 6.4],
    [120, 8],
    [144, 9.6],
  ])("at %i: %f", (tempo, strokes) => {
    expect(repeated(tempo, "s").strain?.figure).toBeCloseTo(strokes, 9);
  });
});

describe("one key struck again", () => {
  // Source: makers of grand pianos: the action repeats up to 14 times a second.
  test("what a grand action cannot do, nobody is said to do", () => {
    expect(actionStrokes).toBe(14);
    expect(handsProfileSchema.safeParse({ ...usualHands, repeatedNotes: 14 }).success).toBe(true);
    expect(handsProfileSchema.safeParse({ ...usualHands, repeatedNotes: 14.1 }).success).toBe(false);
    expect(handsProfileSchema.safeParse({ ...usualHands, repeatedChords: 14.1 }).success).toBe(false);
    expect(repeated(106, "t").verdict).toBe("not playable");
  });

  // Source: the record with two fingers on one key, 13.7 strokes a second.
  test("the record is awkward for usual hands, and can be done", () => {
    const record = (13.7 * 60) / 8;
    expect(repeated(record, "t").strain?.figure).toBeCloseTo(13.7, 9);
    expect(repeated(record, "t").verdict).toBe("awkward");
  });
});
