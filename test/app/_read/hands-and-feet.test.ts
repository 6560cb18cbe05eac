import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Gesture, readGesture } from "@/app/_read/read-gesture";
import { type PressedKey, readKey } from "@/app/_read/read-key";
import { leastTarget, leftPart, tapZone, topEdge } from "@/app/_read/tap-zone";

/** `"shift+Space"`, `"PageDown"`. */
function pressed(text: string): PressedKey {
  const parts = text.split("+");
  const key = parts.at(-1) ?? "";
  const has = (name: string) => parts.slice(0, -1).includes(name);
  return {
    key: key === "Space" ? " " : key,
    shiftKey: has("shift"),
    ctrlKey: has("ctrl"),
    altKey: has("alt"),
    metaKey: has("meta"),
  };
}

describe("keys and pedals", () => {
  test.each([
    ["PageDown", "on"],
    ["PageUp", "back"],
    ["ArrowRight", "on"],
    ["ArrowLeft", "back"],
    ["ArrowDown", "on"],
    ["ArrowUp", "back"],
    ["Space", "on"],
    ["shift+Space", "back"],
    ["Home", "first"],
    ["End", "last"],
    ["Enter", null],
    ["a", null],
    ["toString", null],
    ["ctrl+Home", null],
    ["alt+ArrowLeft", null],
    ["meta+ArrowRight", null],
    ["shift+PageDown", null],
  ])("%s turns %s", (key, turn) => {
    expect(readKey(pressed(key), false)).toBe(turn);
  });

  test("space presses the button that has the focus, and turns nothing then; a pedal's other keys still turn", () => {
    expect(readKey(pressed("Space"), true)).toBeNull();
    expect(readKey(pressed("shift+Space"), true)).toBeNull();
    expect(readKey(pressed("PageDown"), true)).toBe("on");
  });
});

describe("a finger", () => {
  const moved = (toX: number, toY: number, fingers = 1): Gesture => ({
    ...{ fromX: 400, fromY: 600, toX: 400 + toX, toY: 600 + toY, fingers },
  });
  test.each<[what: string, gesture: Gesture, means: ReturnType<typeof readGesture>]>([
    ["lying still taps", moved(0, 0), "tap"],
    ["trembling taps", moved(8, -8), "tap"],
    ["from right to left turns on", moved(-120, 20), "on"],
    ["from left to right turns back", moved(120, -30), "back"],
    ["up or down turns nothing", moved(20, 200), null],
    ["across and as far down turns nothing", moved(100, 100), null],
    ["a little across turns nothing", moved(-30, 0), null],
    ["with another, as for a closer look, turns nothing", moved(-120, 0, 2), null],
    ["beside a resting palm taps nothing", moved(0, 0, 2), null],
  ])("%s", (_what, gesture, means) => {
    expect(readGesture(gesture)).toBe(means);
  });
});

describe("zones", () => {
  const tablet = { width: 834, height: 1194 };
  test.each([
    [417, 600, "on"],
    [279, 600, "on"],
    [277, 600, "back"],
    [0, 1193, "back"],
    [833, 1193, "on"],
    [600, 40, "bar"],
    [10, 94, "bar"],
    [10, 97, "back"],
  ])("a tap at %i, %i: %s", (x, y, zone) => {
    expect(tapZone(x, y, tablet)).toBe(zone);
  });

  test("on every screen each zone is at least 60 pixels either way, and on is twice as wide as back", () => {
    const sizes = fc.record({
      width: fc.integer({ min: 320, max: 2800 }),
      height: fc.integer({ min: 320, max: 2800 }),
    });
    fc.assert(
      fc.property(sizes, (size) => {
        expect(topEdge(size)).toBeGreaterThanOrEqual(leastTarget);
        expect(leftPart(size)).toBeGreaterThanOrEqual(leastTarget);
        expect(size.height - topEdge(size)).toBeGreaterThanOrEqual(leastTarget);
        expect((size.width - leftPart(size)) / leftPart(size)).toBeCloseTo(2, 1);
      }),
    );
  });
});
