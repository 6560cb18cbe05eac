import { describe, expect, it } from "vitest";
import { Metronome } from "@/app/_sound/metronome";
import { clickPattern } from "@/lib/practice/metronome";
import { buildScore } from "../../builders/build-score";
import { FakeEngine } from "./fake-engine";

const metre = buildScore({ metre: "3/4", piano: "R" }).bars[0]!.metre;
const tempo = (perMinute: number) => ({ beat: "1", perMinute });
const beating = (perMinute: number) => ({
  name: "bars 1–4",
  tempo: tempo(perMinute),
  pattern: clickPattern(metre, tempo(perMinute)),
});

/** @param step seconds between two ticks of the page. */
function stage(step = 0.05) {
  const engine = new FakeEngine();
  let ticking: (() => void) | null = null;
  const metronome = new Metronome({
    makeEngine: () => engine,
    repeat: (tick) => {
      ticking = tick;
      return () => {
        ticking = null;
      };
    },
    ahead: () => 0.25,
  });
  const wait = (seconds: number, every = step) => {
    const end = engine.time + seconds;
    while (engine.time < end - 1e-9) {
      engine.time = Math.min(end, engine.time + every);
      ticking?.();
    }
  };
  /** "1!" for the first of a bar, seconds from the first click. */
  const heard = () =>
    engine.clicks.map(({ isFirst, at }) => {
      const since = Math.round((at - (engine.clicks[0]?.at ?? 0)) * 1e6) / 1e6;
      return `${since}${isFirst ? "!" : ""}`;
    });
  return { engine, metronome, wait, heard, isTicking: () => ticking !== null };
}

describe("the metronome", () => {
  it("stands still until somebody presses", () => {
    const { metronome, engine } = stage();
    expect(metronome.state()).toEqual({ beating: null, problem: null });
    expect(engine.clicks).toEqual([]);
  });

  it("clicks evenly, the first of each bar higher, however unevenly the page ticks", () => {
    const { metronome, wait, heard } = stage();
    metronome.start(beating(90));
    wait(1, 0.013);
    wait(1, 0.2);
    wait(0.9, 0.05);
    expect(heard()).toEqual(["0!", "0.666667", "1.333333", "2!", "2.666667"]);
  });

  it("shows a click when it is heard and not when it is sent", () => {
    const { metronome, engine, wait } = stage(0.01);
    engine.latencySeconds = 0.1;
    metronome.start(beating(60));
    wait(0.17);
    expect(metronome.click()).toBeNull();
    wait(0.02);
    expect(metronome.click()).toMatchObject({ bar: 0, inBar: 0 });
    wait(1);
    expect(metronome.click()).toMatchObject({ bar: 0, inBar: 1 });
    wait(2);
    expect(metronome.click()).toMatchObject({ bar: 1, inBar: 0 });
  });

  it("takes another tempo from the next click on and goes on counting", () => {
    const { metronome, wait, heard } = stage();
    metronome.start(beating(60));
    wait(1.5);
    metronome.change(tempo(120));
    expect(metronome.state().beating?.tempo.perMinute).toBe(120);
    wait(2);
    expect(heard()).toEqual(["0!", "1", "2", "2.5!", "3", "3.5"]);
  });

  it("stops at once, and what was sent ahead is never heard", () => {
    const { metronome, engine, wait, heard, isTicking } = stage();
    metronome.start(beating(240));
    wait(1);
    const before = heard();
    metronome.stop();
    expect(heard().length).toBeLessThanOrEqual(before.length);
    expect(engine.clicks.every(({ at }) => at < engine.time)).toBe(true);
    expect([metronome.state().beating, metronome.click(), isTicking()]).toEqual([null, null, false]);
    wait(1);
    expect(heard().length).toBeLessThanOrEqual(before.length);
  });

  it("begins anew with the first of a bar when something else is asked for", () => {
    const { metronome, engine, wait } = stage();
    metronome.start(beating(60));
    wait(1.5);
    const before = engine.clicks.length;
    metronome.start(beating(90));
    wait(0.5);
    expect(engine.clicks.slice(before - 1).map(({ isFirst }) => isFirst)).toContain(true);
    expect(metronome.state().beating?.tempo.perMinute).toBe(90);
    expect(metronome.click()?.index).toBe(0);
  });

  it("does not catch up with what a page that slept has missed", () => {
    const { metronome, engine, wait } = stage();
    metronome.start(beating(60));
    wait(0.5);
    // The fake engine refuses what is sent too late.
    wait(20, 20);
    expect(engine.clicks.length).toBeLessThanOrEqual(3);
    wait(1.1);
    expect(metronome.click()?.index).toBe(21);
  });

  it("says so where nothing can sound", () => {
    const metronome = new Metronome({
      makeEngine: () => {
        throw new Error("no sound");
      },
      repeat: () => () => {},
      ahead: () => 0.25,
    });
    metronome.start(beating(60));
    expect(metronome.state()).toEqual({ beating: null, problem: "This browser makes no sound here." });
  });
});
