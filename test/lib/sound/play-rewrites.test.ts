import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { RewriteEvent, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { midiNumber } from "@/lib/score/pitch";
import { addQuarters, type Quarters, quarters, quartersAsNumber, readQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import { plainManner } from "@/lib/sound/listen-manner";
import type { ListenRequest } from "@/lib/sound/listen-request";
import { readSchedule } from "@/lib/sound/read-schedule";
import type { Schedule } from "@/lib/sound/schedule";
import { buildScore } from "@/test/builders/build-score";
import { arbitraryPiano } from "../hands/arbitrary-piano";
import { termsOf } from "../rewrites/editing/written-terms";
import { onsets, sounds, velocities } from "./schedule-views";

const everything: ListenRequest = { kind: "piece", cuts: [], from: null };

const play = (
  score: Score,
  rewrites: readonly RewriteTerms[],
  request: ListenRequest = everything,
): Schedule => readSchedule(score, readTempoMap(score), { ...request, rewrites }, plainManner);

/** At a quarter a second. */
const score = buildScore({
  ...{ metre: "4/4", tempo: 60, solo: "R | R | R" },
  piano: ["c5:q d5:q e5:q f5:q | g4+g5:e g4+g5:e g4+g5:q g4+g5:h | c5:w", "c3:w | d3:w~ | d3:w"],
});

const pitch = (step: "C" | "D" | "E" | "G", octave: number) => ({ step, alter: 0, octave });

/** The second bar, with these events in its upper staff and a held bass. */
function second(upper: readonly Partial<RewriteEvent>[]): RewriteTerms {
  const printed = termsOf(score);
  const plain = { tied: [], tremolo: null, isRolled: false, isAccented: false, staff: 1, voice: 1 };
  let at = quarters(0);
  const events = upper.map((event): RewriteEvent => {
    const here = { barIndex: 1, offset: `${at.num}${at.den === 1 ? "" : `/${at.den}`}` };
    const written = { ...plain, at: here, lasts: "1", pitches: [], ...event };
    at = addQuarters(at, readQuarters(written.lasts) as Quarters);
    return written;
  });
  const bass = printed.events.filter(({ at: place, staff }) => place.barIndex === 1 && staff === 2);
  return {
    ...printed,
    from: { barIndex: 1, offset: "0" },
    to: { barIndex: 2, offset: "0" },
    events: [...events, ...bass],
  };
}

const inSecondBar = ({ notes }: Schedule, lowest = 60) => ({
  notes: notes.filter(({ onsetSeconds, midi }) => onsetSeconds >= 4 && onsetSeconds < 8 && midi >= lowest),
});

describe("a rewrite that is heard", () => {
  it("stands in its bars, and the print in all others", () => {
    const heard = play(score, [second([{ pitches: [pitch("E", 5)], lasts: "4" }])]);
    expect(onsets(heard)).toBe("c3 0 c5 0 d5 1 e5 2 f5 3 d3 4 e5 4 d3 8 c5 8");
  });

  it("is not heard by those who did not ask for it", () => {
    expect(onsets(play(score, []))).toBe(
      onsets(readSchedule(score, readTempoMap(score), everything, plainManner)),
    );
    expect(onsets(play(score, []))).toContain("g4 4 g5 4 g4 4.5");
  });

  it.each([
    [1, "4", [4, 4.5, 5, 5.5, 6, 6.5, 7, 7.5]],
    [2, "2", [4, 4.25, 4.5, 4.75, 5, 5.25, 5.5, 5.75]],
    // A flag of the note counts as one.
    [1, "1/2", [4, 4.25]],
  ])("strikes a tremolo of %i strokes on %s quarters again, measured", (strokes, lasts, seconds) => {
    const tremolo = { strokes, other: [] };
    const heard = play(score, [second([{ pitches: [pitch("G", 4)], lasts, tremolo }])]);
    expect(inSecondBar(heard).notes.map(({ onsetSeconds }) => onsetSeconds)).toEqual(seconds);
  });

  it("goes to and fro between two sides, each with every other stroke, over the length of both", () => {
    const rocked = { pitches: [pitch("G", 4)], tremolo: { strokes: 2, other: [pitch("G", 5)] }, lasts: "1" };
    const heard = play(score, [second([rocked, { lasts: "3" }])]);
    expect(onsets(inSecondBar(heard))).toBe("g4 4 g5 4.25 g4 4.5 g5 4.75");
  });

  it("holds what is tied, and strikes a tie's note anew where it leads out of the bars", () => {
    const tied = { pitches: [pitch("G", 4)], tied: [0] };
    const out = { pitches: [pitch("C", 5)], tied: [0] };
    const heard = play(score, [second([tied, tied, { pitches: [pitch("G", 4)] }, out])]);
    expect(sounds(inSecondBar(heard))).toEqual(["g4 4–7", "c5 7–7.988"]);
    expect(onsets(heard)).toMatch(/d3 8 c5 8$/);
  });

  const chord = [pitch("G", 4), pitch("C", 5), pitch("E", 5)];

  it("spreads a rolled chord from the lowest note up, the lowest on its beat", () => {
    const heard = play(score, [second([{ pitches: chord, isRolled: true, lasts: "4" }])]);
    expect(sounds(inSecondBar(heard))).toEqual(["g4 4–8", "c5 4.045–7.988", "e5 4.09–8"]);
  });

  it("has room for the roll of a short chord", () => {
    const heard = play(score, [
      second([{ pitches: chord, isRolled: true, lasts: "1/16" }, { lasts: "63/16" }]),
    ]);
    expect(inSecondBar(heard).notes.map(({ onsetSeconds }) => onsetSeconds)).toEqual([4, 4.015625, 4.03125]);
  });

  it("strikes accents harder", () => {
    const accented = play(score, [
      second([
        { pitches: [pitch("C", 5)], isAccented: true },
        { pitches: [pitch("C", 5)], lasts: "3" },
      ]),
    ]);
    const [first, then] = velocities(inSecondBar(accented));
    expect(first).toBeGreaterThan(then!);
  });

  it("sounds in a span, behind its repeats and beside cuts as the print does", () => {
    const rewrite = second([{ pitches: [pitch("E", 5)], lasts: "4" }]);
    const [from, to] = [1, 2].map((barIndex) => ({ barIndex, offset: quarters(0) }));
    expect(onsets(play(score, [rewrite], { kind: "span", from: from!, to: to!, cuts: [] }))).toBe(
      "d3 0 e5 0",
    );
    const first = { from: { barIndex: 0, offset: quarters(0) }, to: from! };
    expect(onsets(play(score, [rewrite], { kind: "piece", from: null, cuts: [first] }))).toBe(
      "d3 0 e5 0 d3 4 c5 4",
    );
  });

  it("of two in the same bars, the last", () => {
    const [one, other] = (["E", "C"] as const).map((step) =>
      second([{ pitches: [pitch(step, 5)], lasts: "4" }]),
    );
    expect(onsets(inSecondBar(play(score, [one!, other!])))).toBe("c5 4");
  });

  it("has every onset at its exact place: the print as a rewrite sounds as the print", () => {
    fc.assert(
      fc.property(arbitraryPiano, (printed) => {
        const heard = (schedule: Schedule) => schedule.notes.map(({ noteId: _, ...note }) => note);
        const plain = play(printed, []);
        const again = play(printed, [termsOf(printed)]);
        expect(heard(again)).toEqual(heard(plain));
        const secondsPerQuarter = 60 / 96;
        const exact = termsOf(printed).events.flatMap(({ at, pitches }) =>
          pitches.map((each) => {
            const place = readQuarters(at.offset) as Quarters;
            return [
              midiNumber(each),
              (at.barIndex * 4 + quartersAsNumber(place)) * secondsPerQuarter,
            ] as const;
          }),
        );
        const wanted = new Set(exact.map(([midi, seconds]) => `${midi} ${seconds.toFixed(6)}`));
        const sounded = new Set(
          again.notes.map(({ midi, onsetSeconds }) => `${midi} ${onsetSeconds.toFixed(6)}`),
        );
        expect(sounded).toEqual(wanted);
      }),
    );
  });
});
