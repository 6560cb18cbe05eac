import { describe, expect, test } from "vitest";
import { layOutLargeMeter } from "@/app/_ui/meter/large-meter-rows";

const time = (seconds: number, low = seconds * 1.09, high = seconds * 1.39) => ({ seconds, low, high });
const row = (kind: "written" | "agreed" | "open", seconds: number) => ({ kind, time: time(seconds) });
const rows = [row("written", 469), row("agreed", 453), row("open", 438)];

describe.each([320, 560, 1086])("the large meter, %i pixels wide", (width) => {
  const layout = layOutLargeMeter(rows, 450, width);

  test("has everything in the drawing, in its order", () => {
    for (const { end, low, high } of layout.rows) {
      expect(end).toBeGreaterThanOrEqual(90);
      expect(low).toBeGreaterThan(end);
      expect(high).toBeGreaterThan(low);
      expect(high).toBeLessThanOrEqual(width);
    }
    expect(layout.rows.map(({ end }) => end)).toEqual(
      [...layout.rows.map(({ end }) => end)].sort((a, b) => b - a),
    );
  });

  test("keeps the scale: seconds apart are pixels apart", () => {
    const [written, agreed, open] = layout.rows.map(({ end }) => end) as [number, number, number];
    expect((written - agreed) / 16).toBeCloseTo((agreed - open) / 15, 6);
    expect(((layout.limitX ?? 0) - open) / 12).toBeCloseTo((agreed - open) / 15, 6);
  });

  test("the limit runs through no figures", () => {
    for (const { timeX } of layout.rows) {
      const isThrough = (layout.limitX ?? 0) > timeX - 38 && (layout.limitX ?? 0) < timeX;
      expect(isThrough).toBe(false);
    }
  });

  test("minutes of the axis stand apart and in the drawing", () => {
    const at = layout.ticks.map(({ x }) => x);
    at.slice(1).forEach((x, index) => {
      expect(x - (at[index] ?? 0)).toBeGreaterThanOrEqual(56);
    });
    expect(Math.max(...at)).toBeLessThanOrEqual(width);
  });
});

test("where a short piece fits in whole, it is drawn from nothing", () => {
  const layout = layOutLargeMeter([row("written", 100), row("open", 60)], null, 900);
  expect(layout).toMatchObject({ from: 0, limitX: null });
});

test("a limit above everything is still in the drawing", () => {
  const { limitX, limitWordsX } = layOutLargeMeter(rows, 900, 400);
  expect(limitX).toBeLessThanOrEqual(400);
  expect(limitWordsX).toBeLessThanOrEqual(360);
});
