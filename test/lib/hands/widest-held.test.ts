import { describe, expect, test } from "vitest";
import { handsProfileSchema, usualHands } from "@/lib/hands/hands-profile";
import { reachOfChord } from "@/lib/hands/reach-of-chord";
import { findWidestHeld, heldMilliseconds, type KeyMove } from "@/lib/hands/widest-held";

/** "60+0 76+30 60-900": key, down or up, moment. */
const moves = (text: string): KeyMove[] =>
  text.split(" ").map((one) => {
    const [, midi, sign, at] = /^(\d+)([+-])(\d+)$/.exec(one) ?? [];
    return { midi: Number(midi), isDown: sign === "+", at: Number(at) };
  });

describe("the widest chord that was held", () => {
  test.each([
    ["a tenth, let go", "48+0 64+20 48-900 64-910", 910, 16],
    ["still down", "48+0 64+20", 20 + heldMilliseconds, 16],
    ["the wider of two", "48+0 60+0 48-500 60-500 48+600 62+610 48-1200 62-1210", 1300, 14],
    ["inner keys do not matter", "48+0 55+5 64+10 64-800 55-800 48-800", 900, 16],
  ])("%s", (_name, text, now, span) => {
    expect(findWidestHeld(moves(text), now)?.spanSemitones).toBe(span);
  });

  test.each([
    ["one key", "48+0 48-2000", 2000],
    ["struck one after the other", "48+0 48-500 64+510 64-1200", 1200],
    ["let go too soon", `48+0 64+5 64-${heldMilliseconds - 10} 48-900`, 900],
  ])("none: %s", (_name, text, now) => {
    expect(findWidestHeld(moves(text), now)).toBeNull();
  });
});

describe("a reach by a chord", () => {
  test.each([
    [12, 11, 12],
    [14, 12, 14],
    [16, 14, 16],
    [17, 16, 17],
    [15, 14, 15],
    [2, 5, 5],
    [30, 23, 24],
  ])("%i semitones: %i with ease, %i at most", (span, comfortable, possible) => {
    expect(reachOfChord(span)).toEqual({ comfortable, possible });
    const reach = reachOfChord(span);
    expect(handsProfileSchema.safeParse({ ...usualHands, left: reach, right: reach }).success).toBe(true);
  });
});
