import { describe, expect, it } from "vitest";
import { Player } from "@/app/_sound/player";
import { readTempoMap } from "@/lib/score/tempo-map";
import type { ListenRequest } from "@/lib/sound/listen-request";
import { readSchedule } from "@/lib/sound/read-schedule";
import { at, buildScore } from "../../builders/build-score";
import { FakeEngine } from "./fake-engine";

const everything: ListenRequest = { kind: "piece", cuts: [], from: null };

/** Four quarters of the solo and a held note of the piano in each of two bars, a quarter a second. */
const score = buildScore({
  tempo: 60,
  solo: "c5:q d5:q e5:q f5:q | g5:q a5:q b5:q c6:q",
  piano: "c3:w | g3:w",
});

interface Stage {
  readonly player: Player;
  readonly engine: FakeEngine;
  /** Lets time go by in steps as a page does. */
  wait(seconds: number): void;
  /** MIDI number and seconds from the first beat of everything that was heard, by time. */
  heard(): string[];
  readonly isTicking: () => boolean;
}

function stage(step = 0.05): Stage {
  const engine = new FakeEngine();
  let ticking: (() => void) | null = null;
  const player = new Player({
    makeEngine: () => engine,
    perform: async (request) => readSchedule(score, readTempoMap(score), request),
    repeat: (tick) => {
      ticking = tick;
      return () => {
        ticking = null;
      };
    },
    ahead: () => 0.25,
  });
  return {
    player,
    engine,
    wait(seconds) {
      const end = engine.time + seconds;
      while (engine.time < end - 1e-9) {
        engine.time = Math.min(end, engine.time + step);
        ticking?.();
      }
    },
    heard: () => {
      const first = engine.struck[0]?.at ?? 0;
      return engine.struck
        .toSorted((a, b) => a.at - b.at || a.midi - b.midi)
        .map(({ midi, at }) => `${midi} ${Math.round((at - first) * 1000) / 1000}`);
    },
    isTicking: () => ticking !== null,
  };
}

/** Until what was asked for has begun. */
const begun = () => new Promise((resolve) => setImmediate(resolve));

async function playing(
  request = everything,
  change: Parameters<Player["change"]>[0] = { hasCountIn: false },
) {
  const on = stage();
  on.player.change(change);
  on.player.play(request);
  await begun();
  expect(on.player.state().status).toBe("playing");
  return on;
}

const wholePiece = ["48 0", "72 0", "74 1", "76 2", "77 3", "55 4", "79 4", "81 5", "83 6", "84 7"];

describe("the player", () => {
  it("is silent until somebody presses", () => {
    const { player, engine } = stage();
    expect(player.state()).toMatchObject({ status: "silent", request: null });
    expect(player.at()).toBeNull();
    expect(engine.opensAt).toBe(Number.POSITIVE_INFINITY);
  });

  it("fetches the sounds first and says how far it is", async () => {
    const { player } = stage();
    player.play(everything);
    expect(player.state()).toMatchObject({ status: "preparing", loaded: 0.5, request: everything });
    await begun();
    expect(player.state()).toMatchObject({ status: "playing", loaded: null });
  });

  it("sends every note for its moment and comes to an end", async () => {
    const on = await playing();
    on.wait(9);
    expect(on.heard()).toEqual(wholePiece);
    expect(on.engine.released).toHaveLength(on.engine.struck.length);
    expect(on.player.state()).toMatchObject({ status: "silent", request: everything });
    expect(on.player.at()).toBeNull();
    expect(on.isTicking()).toBe(false);
    expect(on.engine.closesAt).toBeGreaterThan(on.engine.struck.at(-1)?.at ?? 0);
  });

  it("counts in before the music", async () => {
    const on = await playing(everything, { hasCountIn: true });
    expect(on.player.at()).toMatchObject({ barIndex: 0, seconds: -4 });
    on.wait(5);
    expect(on.engine.clicks.map(({ isFirst }) => isFirst)).toEqual([true, false, false, false]);
    expect((on.engine.struck[0]?.at ?? 0) - (on.engine.clicks[0]?.at ?? 0)).toBeCloseTo(4, 9);
  });

  it("says where the music is, from attack to attack", async () => {
    const on = await playing();
    const told: string[] = [];
    on.player.subscribeAt(() => {
      const at = on.player.at();
      told.push(at ? `${at.barIndex} ${at.startSeconds}` : "over");
    });
    on.wait(9);
    expect(told).toEqual(["0 1", "0 2", "0 3", "1 4", "1 5", "1 6", "1 7", "over"]);
  });

  it("says where the music is as it is heard, not as it is sent", async () => {
    const on = await playing();
    on.engine.latencySeconds = 0.5;
    on.wait(1.3);
    expect(on.player.at()?.startSeconds).toBe(0);
    on.wait(0.5);
    expect(on.player.at()?.startSeconds).toBe(1);
  });

  it("pauses at once and goes on where it was", async () => {
    const on = await playing();
    on.wait(2.58);
    on.player.pause();
    expect(on.player.state().status).toBe("paused");
    expect(on.player.secondsNow()).toBeCloseTo(2.5, 6);
    expect(on.engine.closesAt).toBe(on.engine.time);
    const before = on.engine.struck.length;
    on.wait(20);
    expect(on.engine.struck).toHaveLength(before);
    on.player.resume();
    const from = on.engine.time;
    on.wait(0.7);
    expect(on.engine.struck.at(-1)).toMatchObject({ midi: 77 });
    // Half a second of music is left before the note, and a little time to send it.
    expect((on.engine.struck.at(-1)?.at ?? 0) - from).toBeCloseTo(0.58, 6);
  });

  it("lets nothing that was sent ahead be heard when it begins again at once", async () => {
    const on = await playing();
    on.wait(1);
    on.player.pause();
    on.player.resume();
    // The engine refuses a gate that opens before what was sent has died away.
    expect(on.engine.opensAt).toBeGreaterThanOrEqual(on.engine.deafUntil);
    on.wait(8);
    expect(on.engine.struck.map(({ midi }) => midi)).toContain(84);
  });

  it("stops and forgets", async () => {
    const on = await playing();
    on.wait(1);
    on.player.stop();
    expect(on.player.state()).toMatchObject({ status: "silent", request: null, totalSeconds: 0 });
    expect(on.player.at()).toBeNull();
    expect(on.isTicking()).toBe(false);
    on.player.resume();
    expect(on.player.state().status).toBe("silent");
  });

  it("goes to another place", async () => {
    const on = await playing();
    on.wait(1);
    on.player.seek(6);
    on.wait(2.5);
    expect(on.engine.struck.slice(-2).map(({ midi }) => midi)).toEqual([83, 84]);
  });

  it("goes to another place while it is paused", async () => {
    const on = await playing();
    on.wait(1);
    on.player.pause();
    on.player.seek(4);
    expect(on.player.at()).toMatchObject({ barIndex: 1, offset: { num: 0 } });
  });

  it("goes to a place of the piece, whatever was cut before it", async () => {
    const on = await playing({ ...everything, cuts: [{ from: at(0), to: at(0, 2) }] });
    on.wait(0.2);
    expect(on.player.goTo(1)).toBe(true);
    expect(on.player.at()).toMatchObject({ barIndex: 0, offset: { num: 2 }, startSeconds: 0 });
    expect(on.player.goTo(5)).toBe(true);
    expect(on.player.at()).toMatchObject({ barIndex: 1, offset: { num: 1 }, startSeconds: 3 });
    expect(on.player.goTo(8)).toBe(false);
  });

  it("keeps its place when the tempo changes, and leaves no note out", async () => {
    const on = await playing();
    on.wait(2.58);
    on.player.change({ tempoPercent: 50 });
    // What was sent ahead, up to 2.75, keeps its moments; from there on everything takes twice as long.
    expect(on.player.state().totalSeconds).toBeCloseTo(16, 9);
    on.wait(14);
    expect(on.heard()).toEqual([
      ...["48 0", "72 0", "74 1", "76 2", "77 3.25"],
      ...["55 5.25", "79 5.25", "81 7.25", "83 9.25", "84 11.25"],
    ]);
  });

  it("tells seconds at the chosen tempo", async () => {
    const on = await playing(everything, { hasCountIn: false, tempoPercent: 50 });
    on.wait(2.08 + 0.01);
    expect(on.player.at()).toMatchObject({ startSeconds: 1, seconds: 2 });
    expect(on.player.secondsNow()).toBeCloseTo(2.01, 6);
  });

  it("takes the solo away while it plays, and brings it back", async () => {
    const on = await playing();
    on.wait(1.58);
    on.player.change({ hasSolo: false });
    on.wait(2);
    on.player.change({ hasSolo: true });
    on.wait(5);
    expect(on.heard()).toEqual(["48 0", "72 0", "74 1", "55 4", "79 4", "81 5", "83 6", "84 7"]);
  });

  it("plays it again and again", async () => {
    const on = await playing();
    on.player.loop(true);
    on.wait(17.2);
    expect(on.heard().filter((note) => note.startsWith("72 "))).toEqual(["72 0", "72 8", "72 16"]);
    on.player.loop(false);
    on.wait(9);
    expect(on.player.state().status).toBe("silent");
    expect(on.engine.released).toHaveLength(on.engine.struck.length);
  });

  it("plays what was asked for last", async () => {
    const on = stage();
    on.player.change({ hasCountIn: false });
    on.player.play(everything);
    on.player.play({
      ...everything,
      from: { ...everything.from, barIndex: 1, offset: score.bars[0]!.start, pass: 1 },
    });
    await begun();
    on.wait(1);
    expect(on.heard().slice(0, 2)).toEqual(["55 0", "79 0"]);
  });

  it("does not begin when it was stopped before the sounds came", async () => {
    const on = stage();
    on.player.play(everything);
    on.player.stop();
    await begun();
    expect(on.player.state().status).toBe("silent");
    expect(on.engine.struck).toEqual([]);
  });

  it("says so when the sounds do not come, and tries again at the next press", async () => {
    const on = stage();
    on.engine.failsToLoad = true;
    on.player.play(everything);
    await begun();
    expect(on.player.state()).toMatchObject({ status: "silent", problem: expect.stringContaining("sounds") });
    on.engine.failsToLoad = false;
    on.player.play(everything);
    await begun();
    expect(on.player.state()).toMatchObject({ status: "playing", problem: null });
  });

  it("says so when there is nothing to play", async () => {
    const on = stage();
    on.player.play({ ...everything, from: { barIndex: 77, offset: score.bars[0]!.start, pass: 1 } });
    await begun();
    expect(on.player.state()).toMatchObject({
      status: "silent",
      problem: expect.stringContaining("not be played"),
    });
  });

  it("keeps the tempo inside its limits", () => {
    const { player } = stage();
    player.change({ tempoPercent: 5 });
    expect(player.state().manner.tempoPercent).toBe(30);
    player.change({ tempoPercent: 500 });
    expect(player.state().manner.tempoPercent).toBe(150);
  });

  it("closes its engine with the page", async () => {
    const on = await playing();
    on.player.close();
    expect(on.engine.isClosed).toBe(true);
    expect(on.isTicking()).toBe(false);
  });
});
