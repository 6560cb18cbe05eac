import { describe, expect, test } from "vitest";
import { findHits, fingerReach, mouseReach, pickHit, type Target } from "@/app/_ui/strip/find-hits";

const target = (meant: string, x: number, end: number, y = 100): Target<string> => ({ x, end, y, meant });
const meanings = (hits: readonly Target<string>[]) => hits.map((hit) => hit.meant);

describe("a tap on the strip", () => {
  const thin = target("thin cut", 100, 104);
  const wide = target("wide cut", 140, 260);

  test("a thin thing is 44 px wide to a finger and 10 px to a mouse", () => {
    expect(meanings(findHits([thin], { x: 82, y: 0 }, fingerReach))).toEqual(["thin cut"]);
    expect(findHits([thin], { x: 79, y: 0 }, fingerReach)).toEqual([]);
    expect(findHits([thin], { x: 90, y: 0 }, mouseReach)).toEqual([]);
    expect(meanings(findHits([thin], { x: 97, y: 0 }, mouseReach))).toEqual(["thin cut"]);
  });

  test("a wide thing is not widened", () => {
    expect(findHits([wide], { x: 135, y: 0 }, fingerReach)).toEqual([]);
  });

  test("the nearest wins; inside both, the one at the height of the tap", () => {
    const pin = target("pin", 196, 212, 180);
    expect(meanings(findHits([wide, pin], { x: 204, y: 175 }, mouseReach))).toEqual(["pin", "wide cut"]);
    expect(meanings(findHits([wide, pin], { x: 204, y: 90 }, mouseReach))).toEqual(["wide cut", "pin"]);
    expect(meanings(findHits([thin, target("next", 128, 132)], { x: 112, y: 0 }, fingerReach))).toEqual([
      "thin cut",
      "next",
    ]);
  });

  test("a second tap at the same place takes the next under the finger, and comes round", () => {
    const hits = findHits([thin, target("next", 110, 114)], { x: 105, y: 100 }, fingerReach);
    const tap = { x: 105, y: 100 };
    const first = pickHit(hits, tap, null);
    expect(first?.meant).toBe("thin cut");
    const second = pickHit(hits, { x: 107, y: 101 }, { ...tap, took: first?.meant ?? null });
    expect(second?.meant).toBe("next");
    expect(pickHit(hits, tap, { ...tap, took: "next" })?.meant).toBe("thin cut");
  });

  test("a tap elsewhere starts again", () => {
    const hits = findHits([thin], { x: 102, y: 100 }, fingerReach);
    expect(pickHit(hits, { x: 102, y: 100 }, { x: 400, y: 100, took: "thin cut" })?.meant).toBe("thin cut");
    expect(pickHit([], { x: 5, y: 5 }, null)).toBeNull();
  });
});
