import { describe, expect, test } from "vitest";
import { SteadyClock } from "@/app/_stopwatch/steady-clock";

/** Both clocks in the hand of the test. */
function clocks() {
  const time = { steady: 5_000, wall: 1_000_000 };
  const clock = new SteadyClock({ steady: () => time.steady, wall: () => time.wall });
  const pass = (steady: number, wall = steady) => {
    time.steady += steady;
    time.wall += wall;
  };
  return { clock, pass };
}

describe("the steady clock", () => {
  test("goes with the page’s own clock", () => {
    const { clock, pass } = clocks();
    pass(1234.5);
    expect(clock.now()).toBe(1_001_234.5);
    expect(clock.hasSlept).toBe(false);
  });

  test("a device that slept is told by the wall clock", () => {
    const { clock, pass } = clocks();
    pass(1000);
    pass(20, 60_000);
    expect(clock.now()).toBe(1_061_000);
    expect(clock.hasSlept).toBe(true);
    pass(500);
    expect(clock.now()).toBe(1_061_500);
  });

  test.each([
    ["set back by an hour", -3_600_000],
    ["put right by less than a second", 900],
  ])("a wall clock %s changes nothing", (_what, wall) => {
    const { clock, pass } = clocks();
    pass(1000, 1000 + wall);
    expect(clock.now()).toBe(1_001_000);
    expect(clock.hasSlept).toBe(false);
  });
});
