import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { addQuarters, compareQuarters, noQuarters, quarters, writeQuarters } from "@/lib/score/quarters";
import { seconds } from "@/lib/score/seconds";
import { secondsBetween } from "@/lib/score/seconds-between";
import { readTempoMap, type TempoSettings } from "@/lib/score/tempo-map";
import { readTimeline } from "@/lib/score/timeline";
import { writtenSeconds } from "@/lib/score/written-seconds";
import { at, buildScore, type ScoreText } from "../../builders/build-score";

const plain = { fermataFactor: 1, ritardandoTo: 1 };

/** Seconds of each bar as it is played. */
function barSeconds(text: ScoreText, settings: Partial<TempoSettings> = plain): number[] {
  const score = buildScore(text);
  const { bars } = readTimeline(score, findPerformedOrder(score), readTempoMap(score, settings));
  return bars.map(({ startSeconds, endSeconds }) => Math.round((endSeconds - startSeconds) * 1000) / 1000);
}

/** Tempo at the start of each segment, with its bar. */
function tempi(text: ScoreText, settings: Partial<TempoSettings> = plain): string[] {
  const score = buildScore(text);
  return readTempoMap(score, settings).segments.map(
    ({ from, startQuartersPerMinute, endQuartersPerMinute, basis }) => {
      const change =
        startQuartersPerMinute === endQuartersPerMinute ? "" : `→${Math.round(endQuartersPerMinute)}`;
      return `${writeQuarters(from)}: ${Math.round(startQuartersPerMinute)}${change} ${basis}`;
    },
  );
}

describe("the tempo map", () => {
  it("takes printed numbers, in the beats they count", () => {
    expect(barSeconds({ solo: "q=60 c4:w | h=60 c4:w | q.=60 c4:w | sound=240 c4:w" })).toEqual([
      4, 2, 2.667, 1,
    ]);
  });

  it("takes the metronome mark where playback says something else", () => {
    expect(tempi({ solo: "sound=120 q=60 c4:w" })).toEqual(["0: 60 printed"]);
  });

  it("assumes a moderato where nothing is said, and says so", () => {
    const score = buildScore({ solo: "c4:w" });
    const map = readTempoMap(score);
    expect(map.segments).toMatchObject([{ startQuartersPerMinute: 100, basis: "assumed" }]);
    expect(map.assumptions).toMatchObject([{ kind: "no-tempo", barLabel: "1", assumed: 100 }]);
  });

  it("assumes a number for words, and lists it with what was printed", () => {
    const map = readTempoMap(buildScore({ solo: '"Andante con moto" c4:w | R' }));
    expect(map.segments).toMatchObject([{ startQuartersPerMinute: 88, basis: "assumed" }]);
    expect(map.assumptions).toMatchObject([{ kind: "tempo-word", printed: "Andante con moto", assumed: 88 }]);
  });

  it("counts words in the beats of the metre", () => {
    expect(tempi({ metre: "2/2", solo: '"Allegro" c4:w' })).toEqual(["0: 185 assumed"]);
    expect(tempi({ metre: "3/8", solo: '"Allegretto" c4:q.' })).toEqual(["0: 78 assumed"]);
    expect(tempi({ metre: "6/8", solo: '"Allegro" c4:h.' })).toEqual(["0: 132 assumed"]);
  });

  it("lets the first mark hold from the upbeat on", () => {
    expect(tempi({ solo: "c4:q | q=90 c4:w" })).toEqual(["0: 90 printed", "1: 90 printed"]);
  });

  it("reads changes against the tempo before, and returns", () => {
    const solo = 'q=100 c4:w | "Più mosso" c4 | "a tempo" c4 | "poco meno mosso" c4 | q=60 c4 | "Tempo I" c4';
    expect(tempi({ solo })).toEqual([
      "0: 100 printed",
      "4: 120 assumed",
      "8: 100 printed",
      "12: 89 assumed",
      "16: 60 printed",
      "20: 100 printed",
    ]);
  });

  it("keeps beat for beat in l'istesso tempo", () => {
    expect(tempi({ metre: "2/4", solo: `q=80 c4:h | 6/8 "L'istesso tempo" c4:h.` })).toEqual([
      "0: 80 printed",
      "2: 120 assumed",
    ]);
  });

  it("keeps the quarters in l'istesso tempo between 4/4 and alla breve", () => {
    expect(tempi({ metre: "4/4", solo: `q=80 c4:w | 2/2 "L'istesso tempo" c4:w` })).toEqual([
      "0: 80 printed",
      "4: 80 printed",
    ]);
  });

  it("takes the heading of the movement where no tempo stands over the music", () => {
    const map = readTempoMap({ ...buildScore({ solo: "c4:w" }), movement: "II. Larghetto" });
    expect(map.segments).toMatchObject([{ startQuartersPerMinute: 63, basis: "assumed" }]);
    expect(map.assumptions).toMatchObject([{ kind: "no-tempo", printed: "II. Larghetto" }]);
  });

  it("takes a small word inside a piece for an expression", () => {
    expect(tempi({ tempo: 80, solo: 'c4:w | "grave" c4 | "Grave" c4' })).toEqual([
      "0: 80 printed",
      "8: 44 assumed",
    ]);
  });

  it("slows down evenly to a tempo, and does not outlast four bars", () => {
    const text = { metre: "4/4", tempo: 80, solo: 'R | "rit." R | R | "a tempo" R*2' } as const;
    expect(tempi(text, {})).toEqual(["0: 80 printed", "4: 80→60 printed", "12: 80 printed"]);
    const long = { metre: "4/4", tempo: 80, solo: 'R | "rit." R*9' } as const;
    expect(tempi(long, {})).toEqual(["0: 80 printed", "4: 80→60 printed", "20: 80 printed"]);
    const kinds = readTempoMap(buildScore(long)).assumptions.map(
      ({ kind, barLabel }) => `${kind} ${barLabel}`,
    );
    expect(kinds).toEqual(["ramp 2", "ramp-ends 6"]);
  });

  it("takes rit. and molto rit. as one, and turns with an accelerando", () => {
    const solo = 'R | "rit." R | "molto rit." R | "accel." R | R';
    expect(tempi({ tempo: 80, solo }, {})).toEqual([
      "0: 80 printed",
      "4: 80→60 printed",
      "12: 80→107 printed",
    ]);
  });

  it("adds no ramp where a number says what happens", () => {
    expect(tempi({ tempo: 80, solo: 'R | "rit." sound=70 R | sound=60 R' }, {})).toEqual([
      "0: 80 printed",
      "4: 70 printed",
      "8: 60 printed",
    ]);
  });

  it("integrates an even change of tempo exactly", () => {
    // Outside check: 4 quarters from 120 to 60, by Simpson's rule over 60 ÷ tempo with 1,000 steps.
    const tempo = (q: number) => 120 - (60 * q) / 4;
    const steps = 1000;
    let sum = 0;
    for (let step = 0; step < steps; step += 1) {
      const [a, b] = [(4 * step) / steps, (4 * (step + 1)) / steps];
      sum += ((b - a) / 6) * (60 / tempo(a) + 240 / tempo((a + b) / 2) + 60 / tempo(b));
    }
    const score = buildScore({ tempo: 120, solo: 'R | "rit." R' });
    const map = readTempoMap(score, { ritardandoTo: 0.5 });
    expect(writtenSeconds(map, quarters(4), quarters(8))).toBeCloseTo(sum, 9);
  });

  it("holds a fermata once, on the shortest note under one, whatever the parts hold", () => {
    const text: ScoreText = { tempo: 60, solo: "c4:h d4:h(fermata) | c4:w", piano: "c3:w(fermata) | c3:w" };
    expect(barSeconds(text, { fermataFactor: 2 })).toEqual([6, 4]);
    expect(readTempoMap(buildScore(text)).assumptions).toMatchObject([
      { kind: "fermata", barLabel: "1", assumed: 1.75 },
    ]);
  });

  it("lets the duo's own tempo hold to the next mark", () => {
    const own = { ...plain, tempi: [{ at: at(0), quartersPerMinute: 120 }] };
    expect(barSeconds({ solo: "q=60 R*2 | q=30 R" }, own)).toEqual([2, 2, 8]);
    const later = { ...plain, tempi: [{ at: at(1, 2), quartersPerMinute: 120 }] };
    expect(barSeconds({ solo: "q=60 R*3" }, later)).toEqual([4, 3, 2]);
  });

  it("scales a section to the duo's own timing, repeats inside it included", () => {
    const timings = [{ from: at(1), to: at(2), seconds: 10 }];
    expect(barSeconds({ tempo: 60, solo: "R |: R :| R" }, { ...plain, timings })).toEqual([4, 5, 5, 4]);
    const ofRit = { timings: [{ from: at(0), to: at(2, 4), seconds: 60 }] };
    const all = barSeconds({ tempo: 60, solo: 'R | "rit." R | R(fermata)' }, ofRit);
    expect(all.reduce((sum, time) => sum + time, 0)).toBeCloseTo(60, 2);
  });

  it.each<[string, Partial<TempoSettings>]>([
    ["a tempo outside the piece", { tempi: [{ at: at(9), quartersPerMinute: 60 }] }],
    ["a tempo of 0", { tempi: [{ at: at(0), quartersPerMinute: 0 }] }],
    ["a negative factor", { fermataFactor: -1 }],
    ["an endless ritardando", { ritardandoTo: Number.NaN }],
    ["a timing that ends before it begins", { timings: [{ from: at(1), to: at(0), seconds: 9 }] }],
  ])("refuses %s", (_name, settings) => {
    expect(() => readTempoMap(buildScore({ solo: "R*2" }), settings)).toThrow(RangeError);
  });

  it("passes over marks and fermatas that lie behind the last bar", () => {
    const score = buildScore({ tempo: 60, solo: "c4:w(fermata) | d4:w(fermata)" });
    const tempoMarks = score.tempoMarks.map((mark) => ({ ...mark, barIndex: 2, onset: quarters(9) }));
    const map = readTempoMap({ ...score, bars: score.bars.slice(0, 1), tempoMarks });
    expect(map.segments.at(-1)?.to).toEqual(quarters(4));
    expect(map.assumptions.map(({ kind }) => kind)).toEqual(["no-tempo", "fermata"]);
  });

  it("tiles the piece", () => {
    const word = fc.constantFrom(
      '"Allegro"',
      '"rit."',
      '"a tempo"',
      "q=90",
      "sound=33",
      '"più mosso"',
      '"accel."',
      "",
    );
    fc.assert(
      fc.property(fc.array(word, { minLength: 1, maxLength: 12 }), (words) => {
        const score = buildScore({ solo: words.map((sign) => `${sign} c4:h d4:h(fermata)`).join(" | ") });
        const { segments } = readTempoMap(score);
        let end = noQuarters;
        for (const segment of segments) {
          expect(writeQuarters(segment.from)).toBe(writeQuarters(end));
          expect(compareQuarters(segment.from, segment.to)).toBeLessThan(0);
          expect(segment.startQuartersPerMinute).toBeGreaterThan(0);
          end = segment.to;
        }
        expect(end).toEqual(quarters(words.length * 4));
      }),
    );
  });
});

describe("the timeline", () => {
  const score = buildScore({ metre: "2/4", tempo: 60, solo: '|: c4:h | "rit." c4 :| q=120 c4:h(fermata)' });
  const order = findPerformedOrder(score);
  const timeline = readTimeline(score, order, readTempoMap(score));

  it("goes through all bars without a gap", () => {
    expect(timeline.bars.map(({ barIndex, pass }) => `${barIndex}.${pass}`)).toEqual([
      "0.1",
      "1.1",
      "0.2",
      "1.2",
      "2.1",
    ]);
    timeline.bars.forEach((bar, index) => {
      expect(bar.startSeconds).toBe(timeline.bars[index - 1]?.endSeconds ?? 0);
    });
    expect(timeline.totalSeconds).toBe(timeline.bars.at(-1)?.endSeconds);
  });

  it("finds its way back from seconds to quarters", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1000 }), (part) => {
        const performed = addQuarters(noQuarters, quarters(order.length.num * part, order.length.den * 1000));
        const time = timeline.secondsAtPerformed(performed);
        expect(timeline.performedAtSeconds(time)).toBeCloseTo(performed.num / performed.den, 6);
      }),
    );
    expect(timeline.performedAtSeconds(seconds(1e6))).toBe(10);
  });

  it("measures from any performed time to any other", () => {
    const map = readTempoMap(score);
    const between = (from: number, to: number) =>
      secondsBetween(map, score, order, quarters(from), quarters(to));
    expect(between(0, 2)).toBe(2);
    expect(between(2, 0)).toBe(-2);
    expect(between(8, 10)).toBeCloseTo(1.75, 9);
    expect(() => between(0, 11)).toThrow(RangeError);
  });
});
