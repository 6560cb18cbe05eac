import { describe, expect, it } from "vitest";
import { nameCut } from "@/lib/cuts/name-cut";
import type { Position } from "@/lib/score/position";
import { at, buildScore } from "../../builders/build-score";

describe("naming a cut", () => {
  const labels = ["0", "1", "2", "3", "X1", "4"];
  const score = buildScore({ solo: "c4:q | R*4 | 6/8 c4:h.", labels });

  it.each<[Position, Position, string]>([
    [at(1), at(2), "bar 1"],
    [at(1), at(4), "bars 1–3"],
    [at(2), at(5, 3), "bars 2–4"],
    [at(3), at(5), "bars 3–X1"],
    [at(1, 2), at(4), "bar 1 beat 3 to bar X1 beat 1"],
    [at(1, "5/2"), at(2, 1), "bar 1 beat 3 + 1/2 to bar 2 beat 2"],
    [at(0), at(1), "bar 0"],
    [at(0, "1/2"), at(1), "bar 0 beat 4 + 1/2 to bar 1 beat 1"],
    [at(4), at(5, "3/2"), "bar X1 beat 1 to bar 4 beat 2"],
  ])("%j to %j is %s", (from, to, name) => {
    expect(nameCut(score, { from, to })).toBe(name);
  });

  it("refuses what lies outside", () => {
    expect(() => nameCut(score, { from: at(1), to: at(6) })).toThrow(RangeError);
  });
});
