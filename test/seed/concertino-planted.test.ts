import { describe, expect, it } from "vitest";
import { BAR, QUARTER, withOnsets } from "@/seed/concertino/event";
import type { InstrumentId } from "@/seed/concertino/instruments";
import { isSamePitch, midiOf } from "@/seed/concertino/pitch";
import {
  CUT_TRAPS,
  GOOD_CUT,
  MISSING_LINES,
  type PlantedCut,
  TUTTIS,
  UNPIANISTIC_PLACES,
} from "@/seed/concertino/planted";
import { barIndex, barRange, composition, handAt, quarterAt, strokes, tempoAt } from "./sounding";

const { bars, orchestra, right, left, harmony } = composition;

/** Every silence of the soloist, in quarters from the start of the movement. */
function silences(): { from: number; to: number }[] {
  const found: { from: number; to: number }[] = [];
  let start: number | undefined = 0;
  let at = 0;
  for (const event of orchestra.solo.flat()) {
    if (event.pitches.length > 0) {
      if (start !== undefined && at > start) found.push({ from: start / QUARTER, to: at / QUARTER });
      start = undefined;
    } else start ??= at;
    at += event.ticks;
  }
  return found;
}

describe("tuttis", () => {
  it("are the soloist's silences of a bar and more, to the beat", () => {
    const long = silences().filter(({ from, to }) => to - from >= 4);
    expect(long).toEqual(TUTTIS.map(({ from, to }) => ({ from: quarterAt(from), to: quarterAt(to) })));
  });

  it.each(TUTTIS)("$name tutti has its length", ({ from, to, quarters, isLong }) => {
    expect(quarterAt(to) - quarterAt(from)).toBe(quarters);
    // More than 16 bars is long (common practice); the short ones have 3 to 8.
    expect(quarters > 64).toBe(isLong);
    if (!isLong) expect(quarters / 4).toBeGreaterThan(3);
    if (!isLong) expect(quarters / 4).toBeLessThanOrEqual(8);
  });
});

describe("unpianistic places", () => {
  const of = (kind: string) => UNPIANISTIC_PLACES.filter((place) => place.kind === kind);

  it.each(of("repeated chords"))(
    "repeats chords in sixteenths in bars $bars.from–$bars.to",
    ({ bars: range, hand, measure }) => {
      for (const bar of barRange(range)) {
        const struck = strokes(hand, bar);
        expect(struck.map(({ onset }) => onset)).toEqual(
          Array.from({ length: 16 }, (_, i) => (i * QUARTER) / 4),
        );
        expect(struck.every(({ midis }) => midis.length >= 3)).toBe(true);
        expect(struck.every(({ midis }) => Math.max(...midis) - Math.min(...midis) === 12)).toBe(true);
        expect((tempoAt(bar) * 4) / 60).toBeCloseTo(measure, 6);
      }
    },
  );

  it.each(of("stretch"))(
    "stretches beyond a tenth in bars $bars.from–$bars.to",
    ({ bars: range, hand, measure }) => {
      const spans = barRange(range).map((bar) => widest(strokes(hand, bar).map(({ midis }) => midis)));
      // A major tenth has 16 semitones.
      expect(Math.min(...spans)).toBeGreaterThan(16);
      expect(Math.max(...spans)).toBe(measure);
    },
  );

  it.each(of("leaps"))(
    "leaps at every eighth in bars $bars.from–$bars.to",
    ({ bars: range, hand, measure }) => {
      const leaps = barRange(range).flatMap((bar) => {
        const struck = strokes(hand, bar);
        expect(struck).toHaveLength(8);
        return struck.slice(1).map(({ midis }, i) => Math.abs(top(midis) - top(struck[i]?.midis ?? [])));
      });
      expect(Math.min(...leaps)).toBeGreaterThan(12);
      expect(Math.max(...leaps)).toBe(measure);
    },
  );

  const top = (midis: readonly number[]) => Math.max(...midis);
  const widest = (chords: readonly number[][]) =>
    Math.max(...chords.map((c) => Math.max(...c) - Math.min(...c)));
});

describe("missing lines", () => {
  it.each(MISSING_LINES)(
    "$instrument in bars $bars.from–$bars.to sings in the full score",
    ({ instrument, bars: range }) => {
      const notes = barRange(range)
        .flatMap((bar) => orchestra[instrument][bar] ?? [])
        .filter((e) => e.pitches.length > 0);
      expect(notes.length).toBeGreaterThan(2 * barRange(range).length);
      expect(notes.filter(({ slurStart }) => slurStart).length).toBeGreaterThan(6);
    },
  );

  it.each(MISSING_LINES)(
    "$instrument in bars $bars.from–$bars.to is not in the reduction",
    ({ instrument, bars: range }) => {
      const moves = barRange(range).flatMap((bar) => movesOf(instrument, bar));
      const kept = moves.filter(({ bar, onset, midi, nextOnset, next }) => {
        const struck = (tick: number) =>
          (["right", "left"] as const).flatMap((hand) =>
            strokes(hand, bar)
              .filter((stroke) => stroke.onset === tick)
              .flatMap(({ midis }) => midis),
          );
        return struck(onset).includes(midi) && struck(nextOnset).includes(next);
      });
      expect(moves.length).toBeGreaterThan(12);
      // Broken chords meet a chord tone now and then; a kept line would keep nearly every move.
      expect(kept.length / moves.length).toBeLessThan(0.1);
    },
  );

  function movesOf(id: InstrumentId, bar: number) {
    const notes = withOnsets(orchestra[id][bar] ?? []).filter(({ event }) => event.pitches.length > 0);
    return notes.slice(1).map(({ event, onset }, i) => {
      const before = notes[i];
      return {
        bar,
        onset: before?.onset ?? 0,
        midi: midiOf(before?.event.pitches[0] ?? { step: "C", alter: 0, octave: 0 }),
        nextOnset: onset,
        next: midiOf(event.pitches[0] ?? { step: "C", alter: 0, octave: 0 }),
      };
    });
  }
});

/** What the reduction plays in a bar, as comparable data. */
function reductionBar(bar: number) {
  return [right, left].map(({ first }) =>
    first[bar]?.map(({ ticks, pitches }) => ({ ticks, pitches: pitches.map(midiOf) })),
  );
}

function cutQuarters({ from, to }: PlantedCut): number {
  return quarterAt(to) - quarterAt(from);
}

describe("the good cut", () => {
  const from = barIndex(GOOD_CUT.from.bar);
  const to = barIndex(GOOD_CUT.to.bar);

  it("leaves out whole groups of four bars between barlines, inside the opening tutti", () => {
    expect(cutQuarters(GOOD_CUT)).toBe(GOOD_CUT.quarters);
    expect(GOOD_CUT.quarters % 16).toBe(0);
    expect(quarterAt(GOOD_CUT.to)).toBeLessThan(quarterAt(TUTTIS[0]?.to ?? GOOD_CUT.from));
  });

  it("has the same two bars before both ends, in the whole orchestra and in the reduction", () => {
    for (const back of [1, 2]) {
      expect(reductionBar(from - back)).toEqual(reductionBar(to - back));
      for (const id of ["fl", "ob", "fg", "hn", "timp", "vl1", "vl2", "vla", "vc", "cb"] as const) {
        const pitches = (bar: number) =>
          orchestra[id][bar]?.map((event) => [event.ticks, event.pitches.map(midiOf)]);
        expect(pitches(from - back)).toEqual(pitches(to - back));
      }
    }
  });

  it("goes on with the same melody on the same chords", () => {
    for (const bar of [0, 1, 2, 3, 4, 5]) {
      const melody = (start: number) =>
        orchestra.ob[start + bar]?.map(({ ticks, pitches }) => [ticks, pitches.map(midiOf)]);
      expect(melody(from)).toEqual(melody(to));
      expect(chordsIn(from + bar)).toEqual(chordsIn(to + bar));
    }
  });

  it("stays in one key and tempo, breaks no tie and keeps the soloist's lead-in", () => {
    expect(bars[from]?.fifths).toBe(bars[to]?.fifths);
    expect(tempoAt(from)).toBe(tempoAt(to));
    expect(tiedInto(to)).toEqual([]);
    expect(tiedInto(from)).toEqual([]);
  });
});

function chordsIn(bar: number): string[] {
  return harmony.filter((segment) => segment.bar === bar).map(({ chord }) => chord.symbol);
}

/** Instruments with a tie into the first beat of a bar. */
function tiedInto(bar: number): string[] {
  return Object.entries(orchestra)
    .filter(([, line]) => {
      const last = line[bar - 1]?.at(-1);
      const next = line[bar]?.[0];
      return (
        last?.tied && last.pitches.some((pitch) => next?.pitches.some((other) => isSamePitch(pitch, other)))
      );
    })
    .map(([id]) => id);
}

describe("traps for bad cuts", () => {
  const trap = (kind: string) => {
    const found = CUT_TRAPS.find((each) => each.kind === kind);
    if (!found) throw new RangeError(`No trap "${kind}"`);
    return { ...found, fromBar: barIndex(found.from.bar), toBar: barIndex(found.to.bar) };
  };

  it.each(CUT_TRAPS)("$kind leaves out what it says", (cut) => {
    expect(cutQuarters(cut)).toBe(cut.quarters);
  });

  it("wrong key: same rhythm before both ends, another chord and key", () => {
    const { fromBar, toBar } = trap("wrong key");
    const melody = (bar: number) => orchestra.vl1[bar - 1] ?? [];
    const rhythm = (bar: number) => melody(bar).map(({ ticks }) => ticks);
    expect(rhythm(fromBar)).toEqual(rhythm(toBar));
    expect([chordsIn(fromBar - 1), chordsIn(toBar - 1)]).toEqual([["F"], ["Gm"]]);
    const steps = melody(fromBar).map((event, i) => {
      const other = melody(toBar)[i]?.pitches[0];
      const own = event.pitches[0];
      return own && other ? midiOf(other) - midiOf(own) : Number.NaN;
    });
    expect(steps.every((step) => step === 1 || step === 2)).toBe(true);
  });

  it("broken tie: first violins and reduction hold a note over the barline", () => {
    const { toBar } = trap("broken tie");
    expect(tiedInto(toBar)).toContain("vl1");
    const last = right.first[toBar - 1]?.at(-1);
    expect(last?.tied).toBe(true);
    expect(last?.pitches.map(midiOf)).toEqual(right.first[toBar]?.[0]?.pitches.map(midiOf));
  });

  it("lost lead-in: the soloist plays in the last bar that is left out", () => {
    const { toBar } = trap("lost lead-in");
    const lead = withOnsets(orchestra.solo[toBar - 1] ?? []).filter(({ event }) => event.pitches.length > 0);
    expect(lead[0]?.onset).toBe(BAR / 2);
    expect(lead).toHaveLength(5);
  });

  it("stolen rest: 94 quarters become 6", () => {
    const cut = trap("stolen rest");
    const tutti = TUTTIS.find(({ name }) => name === "central");
    expect(tutti?.quarters).toBe(94);
    expect((tutti?.quarters ?? 0) - cutQuarters(cut)).toBe(6);
    expect(chordsIn(cut.fromBar - 1).concat(chordsIn(cut.toBar))).toEqual(["F", "F7"]);
  });

  it("lost beat: bar 8 would have three beats", () => {
    const { from, to } = trap("lost beat");
    expect(from.quarter - to.quarter).toBe(3);
    expect(handAt("right", barIndex(from.bar), from.quarter * QUARTER)).toEqual([]);
  });
});
