import { describe, expect, it } from "vitest";
import { type Key, keyOf } from "@/lib/harmony/key";
import {
  albrechtShanahan,
  type KeyProfiles,
  kostkaPayne,
  krumhanslKessler,
  temperley,
} from "@/lib/harmony/key-profiles";
import { correlate, profileOf, rankByCorrelation, rankByDistance } from "@/lib/harmony/match-profile";
import { sayKey } from "@/lib/harmony/say-key";

const major = (tonic: number): Key => ({ tonic, mode: "major" });
const minor = (tonic: number): Key => ({ tonic, mode: "minor" });
const names = ["C", "D♭", "D", "E♭", "E", "F", "F♯", "G", "A♭", "A", "B♭", "B"];
const say = ({ tonic, mode }: Key) => (mode === "major" ? names[tonic] : names[tonic]?.toLowerCase());
const weights = (...pitchClasses: number[]) =>
  Array.from({ length: 12 }, (_, p) => (pitchClasses.includes(p) ? 1 : 0));
const cScale = weights(0, 2, 4, 5, 7, 9, 11);

describe("Krumhansl–Kessler profiles", () => {
  // Computed from the published ratings (Krumhansl and Kessler 1982) by others, three decimals.
  it.each([
    [minor(9), 0.65],
    [major(7), 0.591],
    [major(5), 0.591],
    [minor(4), 0.536],
    [minor(0), 0.512],
    [minor(7), 0.243],
    [minor(2), 0.237],
    [minor(5), 0.214],
    [major(2), 0.041],
    [major(10), 0.041],
    [major(3), -0.104],
    [major(9), -0.104],
    [minor(11), -0.156],
    [major(6), -0.683],
  ])("of C major and %o correlate by %d", (key, expected) => {
    const value = correlate(profileOf(major(0), krumhanslKessler), profileOf(key, krumhanslKessler));
    expect(value).toBeCloseTo(expected, 3);
  });

  // The same source and computation: equal weights on the notes of a scale or chord.
  it("hear the scale of C major as C major, then as A minor", () => {
    const [first, second] = rankByCorrelation(cScale, krumhanslKessler);
    expect([say(first!.key), first!.value.toFixed(3)]).toEqual(["C", "0.756"]);
    expect([say(second!.key), second!.value.toFixed(3)]).toEqual(["a", "0.712"]);
  });

  it.each([
    ["the triad of C major", weights(0, 4, 7), "C", 0.834],
    ["the harmonic scale of A minor", weights(9, 11, 0, 2, 4, 5, 8), "a", 0.687],
  ])("hear %s rightly", (_name, sounding, key, value) => {
    const [first] = rankByCorrelation(sounding, krumhanslKessler);
    expect(say(first!.key)).toBe(key);
    expect(first!.value).toBeCloseTo(value, 3);
  });
});

describe("the profiles stand as published", () => {
  const rows: readonly [source: string, profile: readonly number[], published: string][] = [
    [
      "Krumhansl and Kessler 1982, major (probe-tone ratings)",
      krumhanslKessler.major,
      "6.35 2.23 3.48 2.33 4.38 4.09 2.52 5.19 2.39 3.66 2.29 2.88",
    ],
    [
      "Krumhansl and Kessler 1982, minor",
      krumhanslKessler.minor,
      "6.33 2.68 3.52 5.38 2.60 3.53 2.54 4.75 3.98 2.69 3.34 3.17",
    ],
    [
      "Temperley 2007, Kostka–Payne excerpts, major",
      kostkaPayne.major,
      ".748 .060 .488 .082 .670 .460 .096 .715 .104 .366 .057 .400",
    ],
    [
      "Temperley 2007, Kostka–Payne excerpts, minor",
      kostkaPayne.minor,
      ".712 .084 .474 .618 .049 .460 .105 .747 .404 .067 .133 .330",
    ],
    ["Temperley 1999, major", temperley.major, "5 2 3.5 2 4.5 4 2 4.5 2 3.5 1.5 4"],
    ["Temperley 1999, minor", temperley.minor, "5 2 3.5 4.5 2 4 2 4.5 3.5 2 1.5 4"],
    [
      "Albrecht and Shanahan 2013, major",
      albrechtShanahan.major,
      ".238 .006 .111 .006 .137 .094 .016 .214 .009 .080 .008 .081",
    ],
    [
      "Albrecht and Shanahan 2013, minor",
      albrechtShanahan.minor,
      ".220 .006 .104 .123 .019 .103 .012 .214 .062 .022 .061 .052",
    ],
  ];

  it.each(rows)("%s", (_source, profile, published) => {
    expect(profile).toEqual(published.split(" ").map(Number));
  });
});

describe("all published profiles", () => {
  const all: [string, KeyProfiles][] = [
    ["Krumhansl–Kessler", krumhanslKessler],
    ["Kostka–Payne", kostkaPayne],
    ["Temperley", temperley],
    ["Albrecht–Shanahan", albrechtShanahan],
  ];

  it.each(all)("%s: twelve values each, the tonic and the fifth above the mean", (_name, profiles) => {
    for (const profile of [profiles.major, profiles.minor]) {
      expect(profile).toHaveLength(12);
      const mean = profile.reduce((sum, value) => sum + value, 0) / 12;
      expect(Math.min(profile[0]!, profile[7]!)).toBeGreaterThan(mean);
    }
  });

  it.each(all)("%s: every key's own profile is best matched by the key", (_name, profiles) => {
    for (let number = 0; number < 24; number += 1) {
      const [first] = rankByCorrelation(profileOf(keyOf(number), profiles), profiles);
      expect(first?.key).toEqual(keyOf(number));
      expect(first?.value).toBeCloseTo(1, 12);
    }
  });

  it("Albrecht–Shanahan: shares of one whole, compared by distance", () => {
    for (const profile of [albrechtShanahan.major, albrechtShanahan.minor]) {
      expect(profile.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 1);
    }
    expect(say(rankByDistance(cScale, albrechtShanahan)[0]!.key)).toBe("C");
    expect(say(rankByDistance(weights(9, 11, 0, 2, 4, 5, 8), albrechtShanahan)[0]!.key)).toBe("a");
    expect(() => rankByDistance(weights(), albrechtShanahan)).toThrow(RangeError);
  });
});

describe("correlation", () => {
  it("is 1 for a row and itself, −1 for its mirror, 0 where nothing varies", () => {
    expect(correlate([1, 2, 3], [2, 4, 6])).toBeCloseTo(1, 12);
    expect(correlate([1, 2, 3], [3, 2, 1])).toBeCloseTo(-1, 12);
    expect(correlate([1, 1, 1], [1, 2, 3])).toBe(0);
    expect(() => correlate([1], [1, 2])).toThrow(RangeError);
  });
});

describe("names of keys", () => {
  it.each([
    [0, "major", "C major"],
    [-2, "major", "B♭ major"],
    [6, "minor", "F♯ minor"],
    [-1, "minor", "F minor"],
    [-8, "major", "F♭ major"],
    [-9, "minor", "B♭♭ minor"],
    [13, "major", "F♯♯ major"],
  ])("%i on the line of fifths, %s: %s", (tonicFifths, mode, name) => {
    expect(sayKey({ tonicFifths, mode })).toBe(name);
  });
});
