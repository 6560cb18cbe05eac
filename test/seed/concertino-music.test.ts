import { describe, expect, it } from "vitest";
import { QUARTER } from "@/seed/concertino/event";
import { isChordTone } from "@/seed/concertino/harmony";
import { INSTRUMENT_IDS, INSTRUMENTS, type InstrumentId } from "@/seed/concertino/instruments";
import { midiOf } from "@/seed/concertino/pitch";
import { UNPIANISTIC_PLACES } from "@/seed/concertino/planted";
import {
  barIndex,
  barRange,
  composition,
  type HandName,
  handAt,
  nextPitchAfter,
  quarterAt,
  type SoundingNote,
  soundingNotes,
  tempoAt,
} from "./sounding";

const { bars, orchestra, harmony } = composition;
const BEATS = [0, 1, 2, 3].map((beat) => beat * QUARTER);

describe("ranges", () => {
  // Sounding ranges from orchestration tables; bassoon and timpani from memory.
  const RANGES: Record<InstrumentId, [string, number, number]> = {
    fl: ["C4–D7", 60, 98],
    ob: ["B♭3–A6", 58, 93],
    fg: ["B♭1–E♭5", 34, 75],
    hn: ["B1–F5", 35, 77],
    timp: ["D2–C4", 38, 60],
    solo: ["D3–B♭6", 50, 94],
    vl1: ["G3–A7", 55, 105],
    vl2: ["G3–A7", 55, 105],
    vla: ["C3–E6", 48, 88],
    vc: ["C2–A5", 36, 81],
    cb: ["E1–C4", 28, 60],
  };

  it.each(INSTRUMENT_IDS)("%s stays inside", (id) => {
    const [, low, high] = RANGES[id];
    const sounding = orchestra[id].flatMap((bar) => bar.flatMap(({ pitches }) => pitches.map(midiOf)));
    expect(Math.min(...sounding)).toBeGreaterThanOrEqual(low);
    expect(Math.max(...sounding)).toBeLessThanOrEqual(high);
  });

  it("keeps the timpani to their three drums", () => {
    const drums = new Set(orchestra.timp.flatMap((bar) => bar.flatMap(({ pitches }) => pitches.map(midiOf))));
    expect([...drums].sort()).toEqual([45, 50, 53]);
  });

  it("writes the clarinet a major second higher than it sounds", () => {
    expect(INSTRUMENTS.solo.writtenAbove).toEqual({ diatonic: 1, chromatic: 2 });
  });
});

describe("harmony", () => {
  /** Held against the chord on purpose: the dominant pedal before the recapitulation. */
  const PEDAL = { bars: barRange({ from: "148", to: "154" }), pitchClass: 9 };

  const strongBeats = bars.flatMap((_, bar) =>
    bar === 0 ? [] : [0, 2].map((beat) => ({ bar, tick: BEATS[beat] ?? 0 })),
  );

  it("lets a semitone rub on a strong beat only where the foreign note moves on by step, or is the pedal", () => {
    const unexplained = strongBeats.flatMap(({ bar, tick }) => {
      const chord = chordAt(bar, tick);
      const notes = soundingNotes(bar, tick);
      return rubs(notes).filter(([one, other]) => {
        const foreign = [one, other].filter(({ midi }) => !isChordTone(chord, midi));
        return foreign.some((note) => !isPedal(note, bar) && !movesByStep(note, bar, tick));
      });
    });
    expect(unexplained.map(([one, other]) => `${one.id} ${one.midi} ${other.id} ${other.midi}`)).toEqual([]);
  });

  it("rubs seldom", () => {
    const rubbing = strongBeats.filter(({ bar, tick }) => {
      const chord = chordAt(bar, tick);
      return rubs(soundingNotes(bar, tick)).some((pair) =>
        pair.some(({ midi }) => !isChordTone(chord, midi)),
      );
    });
    expect(rubbing.length).toBeLessThan(strongBeats.length / 25);
  });

  it.each([
    ["7", "vl1"],
    ["15", "vl1"],
    ["35", "solo"],
    ["69", "solo"],
    ["78", "solo"],
    ["102", "vl1"],
    ["134", "solo"],
    ["163", "solo"],
    ["184", "solo"],
    ["192", "solo"],
    ["211", "solo"],
  ] as const)("leads the leading tone home at the close of bar %s in %s", (label, id) => {
    const bar = barIndex(label);
    const { leadingTone } = chordAt(bar, 3 * QUARTER);
    const [last, next] = [orchestra[id][bar]?.at(-1), orchestra[id][bar + 1]?.[0]].map((event) => {
      const top = event?.pitches.at(-1);
      return top && midiOf(top);
    });
    expect((last ?? 0) % 12).toBe(leadingTone);
    expect(next).toBe((last ?? 0) + 1);
  });

  it.each(["solo", "vl1"] as const)(
    "moves %s and bass without parallel fifths or octaves, unison apart",
    (upper) => {
      const UNISON = barRange({ from: "27", to: "28" });
      const found: string[] = [];
      let before: [number, number] | undefined;
      for (const { bar, tick } of bars.flatMap((_, bar) => BEATS.map((tick) => ({ bar, tick })))) {
        const at = (id: InstrumentId) =>
          soundingNotes(bar, tick)
            .filter((note) => note.id === id)
            .at(-1)?.midi;
        const [high, low] = [at(upper), at("vc")];
        const now: typeof before = high === undefined || low === undefined ? undefined : [high, low];
        if (before && now && isParallel(before, now) && !UNISON.includes(bar)) found.push(`${bar} ${tick}`);
        before = now;
      }
      expect(found).toEqual([]);
    },
  );

  function chordAt(bar: number, tick: number) {
    const segment = harmony.findLast((each) => each.bar === bar && each.onset <= tick);
    if (!segment) throw new RangeError(`No chord in bar ${bar} at ${tick}`);
    return segment.chord;
  }

  function rubs(notes: readonly SoundingNote[]): [SoundingNote, SoundingNote][] {
    return notes.flatMap((one) =>
      notes
        .filter((other) => other.midi > one.midi && [1, 11].includes((other.midi - one.midi) % 12))
        .map((other): [SoundingNote, SoundingNote] => [one, other]),
    );
  }

  function isPedal({ midi }: SoundingNote, bar: number): boolean {
    return PEDAL.bars.includes(bar) && midi % 12 === PEDAL.pitchClass;
  }

  function movesByStep({ id, midi }: SoundingNote, bar: number, tick: number): boolean {
    const next = nextPitchAfter(id, bar, tick, midi);
    return next !== undefined && Math.abs(next - midi) <= 2;
  }

  function isParallel([high, low]: [number, number], [highNext, lowNext]: [number, number]): boolean {
    const interval = (high - low) % 12;
    const moved = high !== highNext && low !== lowNext;
    return moved && interval === (highNext - lowNext) % 12 && (interval === 0 || interval === 7);
  }
});

describe("the soloist", () => {
  /** Spans without any rest, in seconds at the printed tempi. */
  function unbrokenSpans(): { bar: number; seconds: number }[] {
    const spans: { bar: number; seconds: number }[] = [];
    let isPlaying = false;
    orchestra.solo.forEach((events, bar) => {
      for (const { ticks, pitches } of events) {
        if (pitches.length > 0 && !isPlaying) spans.push({ bar, seconds: 0 });
        isPlaying = pitches.length > 0;
        const last = spans.at(-1);
        if (isPlaying && last) last.seconds += (ticks / QUARTER) * (60 / tempoAt(bar));
      }
    });
    return spans;
  }

  it("finds a rest to breathe in at least every 15 seconds", () => {
    // Reeds: 10 to 20 seconds is comfortable (common practice, default only).
    const tooLong = unbrokenSpans().filter(({ seconds }) => seconds > 15);
    expect(tooLong).toEqual([]);
  });

  it("ends with the orchestra, on the last chord", () => {
    expect(orchestra.solo.at(-1)?.[0]?.pitches).toHaveLength(1);
    expect(quarterAt({ bar: "213", quarter: 4 })).toBe(853);
  });
});

describe("the reduction", () => {
  const planted = (hand: HandName) =>
    new Set(
      UNPIANISTIC_PLACES.filter((place) => place.hand === hand).flatMap((place) => barRange(place.bars)),
    );
  const everyEighth = bars.flatMap(({ ticks }, bar) =>
    Array.from({ length: (2 * ticks) / QUARTER }, (_, i) => ({ bar, tick: (i * QUARTER) / 2 })),
  );

  it.each(["right", "left"] as const)("keeps the %s hand within an octave except where planted", (hand) => {
    const wide = everyEighth.filter(({ bar, tick }) => {
      const [low, ...high] = handAt(hand, bar, tick);
      return low !== undefined && (high.at(-1) ?? low) - low > 12 && !planted(hand).has(bar);
    });
    expect(wide).toEqual([]);
  });

  it("gives each hand four notes at most", () => {
    const full = everyEighth.filter(({ bar, tick }) =>
      (["right", "left"] as const).some((hand) => handAt(hand, bar, tick).length > 4),
    );
    expect(full).toEqual([]);
  });

  it("never crosses the hands", () => {
    const crossed = everyEighth.filter(({ bar, tick }) => {
      const lowest = handAt("right", bar, tick)[0];
      const highest = handAt("left", bar, tick).at(-1);
      return lowest !== undefined && highest !== undefined && lowest <= highest;
    });
    expect(crossed).toEqual([]);
  });

  it("takes nearly all its pitch classes from the orchestra that sounds at that moment", () => {
    const strange = everyEighth.filter(({ bar, tick }) => {
      const sounding = new Set(soundingNotes(bar, tick).map(({ midi }) => midi % 12));
      const chord = harmony.findLast((each) => each.bar === bar && each.onset <= tick)?.chord;
      const played = [...handAt("right", bar, tick), ...handAt("left", bar, tick)];
      return played.some((midi) => !sounding.has(midi % 12) && !(chord && isChordTone(chord, midi)));
    });
    expect(strange.length).toBeLessThan(everyEighth.length / 100);
  });

  it("holds the melody of every long tutti at the top", () => {
    const tutti = [
      ...barRange({ from: "1", to: "8" }),
      ...barRange({ from: "17", to: "27" }),
      ...barRange({ from: "97", to: "111" }),
    ];
    const lost = tutti.flatMap((bar) =>
      BEATS.filter((tick) => {
        const melody = soundingNotes(bar, tick)
          .filter(({ id }) => id === "vl1")
          .at(-1)?.midi;
        return melody !== undefined && handAt("right", bar, tick).at(-1) !== melody;
      }).map((tick) => `${bar} ${tick}`),
    );
    expect(lost).toEqual([]);
  });
});
