import { describe, expect, test } from "vitest";
import { layOutMeter } from "@/app/_ui/meter/meter-bars";

describe("the running-time meter", () => {
  const times = { asWritten: 754, agreed: 728, withOpen: { label: "with cut 2", seconds: 702 }, limit: 720 };

  test("one scale for the bars and the limit: eight seconds over show as pixels", () => {
    const { bars, limitX, from } = layOutMeter(times, 220);
    expect(from).toBe(660);
    const agreed = bars[1];
    expect(limitX).not.toBeNull();
    expect((agreed?.width ?? 0) - (limitX ?? 0)).toBeGreaterThan(10);
    expect(bars.map((bar) => bar.time)).toEqual(["12:34", "12:08", "11:42"]);
    expect(bars.every((bar) => bar.width <= 220)).toBe(true);
  });

  test("widths keep the order of the times", () => {
    const widths = layOutMeter(times, 220).bars.map((bar) => bar.width);
    expect(widths[0]).toBeGreaterThan(widths[1] ?? 0);
    expect(widths[1]).toBeGreaterThan(widths[2] ?? 0);
  });

  test("without a limit the bars start at nothing and keep their true proportion", () => {
    const { bars, limitX, from } = layOutMeter(
      { asWritten: 600, agreed: 300, withOpen: null, limit: null },
      220,
    );
    expect([from, limitX]).toEqual([0, null]);
    expect((bars[0]?.width ?? 0) / (bars[1]?.width ?? 1)).toBeCloseTo(2);
  });

  test("far from the limit the bars start at nothing too", () => {
    const { limitX, from } = layOutMeter({ asWritten: 900, agreed: 880, withOpen: null, limit: 300 }, 220);
    expect(from).toBe(0);
    expect(limitX).toBeGreaterThan(60);
  });

  test("the limit line never runs through a time: it stands left of the line then", () => {
    const { bars, limitX } = layOutMeter(times, 220);
    for (const bar of bars) {
      const [from, to] = [bar.timeX - bar.time.length * 6.4, bar.timeX];
      expect((limitX ?? 0) <= from || (limitX ?? 0) >= to).toBe(true);
    }
  });

  test("words that do not fit stand beside their bar", () => {
    const { bars } = layOutMeter({ asWritten: 900, agreed: 120, withOpen: null, limit: 300 }, 220);
    expect(bars.map((bar) => bar.isInside)).toEqual([true, false]);
  });
});
