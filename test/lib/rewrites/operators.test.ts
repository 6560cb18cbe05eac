import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type BarEvent, endOf, midiOf, soundedBy, writeEvents } from "@/lib/rewrites/bar-event";
import { beatsOf, compareBar, lossOf } from "@/lib/rewrites/fidelity";
import type { BarToRewrite, Operator } from "@/lib/rewrites/operators/operator";
import { toTheOtherHand } from "@/lib/rewrites/operators/other-hand";
import { shorterLeaps } from "@/lib/rewrites/operators/shorter-leaps";
import * as chords from "@/lib/rewrites/operators/thin-chords";
import * as strokes from "@/lib/rewrites/operators/thin-strokes";
import { tremoloFor, uncounted } from "@/lib/rewrites/operators/tremolo";
import { readBarEvents } from "@/lib/rewrites/read-bar-events";
import { addQuarters, compareQuarters, noQuarters, quarters, writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { arbitraryReduction } from "@/test/builders/arbitrary-reduction";
import { buildScore } from "@/test/builders/build-score";
import { arbitraryPiano } from "@/test/lib/hands/arbitrary-piano";

function eventsOf(score: Score, barIndex = 0): BarEvent[] {
  const part = score.parts.find(({ role }) => role === "reduction");
  return part ? readBarEvents(score, part, barIndex) : [];
}

const bar: BarToRewrite = {
  ...{ barIndex: 0, length: quarters(4), beat: quarters(1), staffCount: 2 },
  reach: { left: 16, right: 16 },
  solo: [],
  rightFromMidi: null,
};

/** A bar in tokens: "0 c4+e4 1/2" is a chord from its start for an eighth; "~" is followed by a tremolo's other side. */
const names = ({ offset, length, pitches, tremolo, isRolled }: BarEvent) => {
  const write = (list: BarEvent["pitches"]) =>
    list
      .map(
        ({ step, alter, octave }) =>
          `${step.toLowerCase()}${"#".repeat(Math.max(0, alter))}${"b".repeat(Math.max(0, -alter))}${octave}`,
      )
      .join("+") || "r";
  const other = tremolo ? `~${write(tremolo.other)}` : "";
  return `${writeQuarters(offset)} ${write(pitches)}${other}${isRolled ? " rolled" : ""} ${writeQuarters(length)}`;
};

const written = (right: string, left: string, operator: Operator, about: Partial<BarToRewrite> = {}) =>
  operator
    .apply(eventsOf(buildScore({ metre: "4/4", solo: "R", piano: [right, left] })), { ...bar, ...about })
    ?.map(names) ?? null;

const times = (token: string, count: number) => Array.from({ length: count }, () => token).join(" ");

describe("what pianists do", () => {
  test("repeated octaves become a tremolo between thumb and fifth finger", () => {
    expect(written(times("g4+g5:s", 16), "c3:w", tremoloFor("right"))).toEqual(["0 g4~g5 4", "0 c3 4"]);
  });

  test("repeated chords become a tremolo against the lowest note, as long as each chord lasts", () => {
    expect(
      written(`${times("e4+g4+c5:s", 8)} ${times("f4+a4+c5:s", 8)}`, "c3:w", tremoloFor("right")),
    ).toEqual(["0 e4~g4+c5 2", "2 f4~a4+c5 2", "0 c3 4"]);
  });

  test("a repeated note is rocked with its octave, the melody on top and the bass at the bottom", () => {
    expect(written(times("a4:e", 8), times("d2:e", 8), tremoloFor("right"))?.[0]).toBe("0 a3~a4 4");
    expect(written("r:w", times("d2:e", 8), tremoloFor("left"))?.at(-1)).toBe("0 d2~d3 4");
  });

  test("a tremolo that is written out need not be counted, from where its sides change anew", () => {
    const rocked = `${times("c4:t e4+g4", 8)} ${times("b3:t d4+f4", 8)}`;
    expect(written(rocked, "c3:w", uncounted("right"))).toEqual(["0 c4~e4+g4 2", "2 b3~d4+f4 2", "0 c3 4"]);
    expect(written("c5:w", times("c2:s c3", 8), uncounted("left"))?.at(-1)).toBe("0 c2~c3 4");
    // Seconds, a run, and what lies too far apart are no tremolo.
    expect(written(times("c4:t d4", 16), "c3:w", uncounted("right"))).toBeNull();
    expect(written("c4:s d4 e4 f4 g4 f4 e4 d4 c4:h", "c3:w", uncounted("right"))).toBeNull();
    expect(written(times("c4:t a5", 16), "c3:w", uncounted("right"))).toBeNull();
  });

  test("seconds are no tremolo", () =>
    expect(written(times("c5+d5:s", 16), "c3:w", tremoloFor("right"))).toBeNull());

  test.each([
    ["inner doublings", chords.dropInnerDoublings("right"), "c4+e4+g4+e5:w", "0 c4+g4+e5 4"],
    ["the upper note of an octave", chords.singleForOctave("right"), "c4+e4+c5:w", "0 e4+c5 4"],
    ["outer notes", chords.outerNotes("right"), "c4+e4+g4+c5:w", "0 c4+c5 4"],
    ["the top line", chords.lineAlone("right"), "c4+e4+g4:w", "0 g4 4"],
    ["within reach", chords.withinReach("right"), "c4+e5+g5:w", "0 c5+e5+g5 4"],
    ["broken", chords.roll("right"), "c4+g5:w", "0 c4+g5 rolled 4"],
  ] as const)("%s", (_name, operator, right, expected) => {
    expect(written(right, "c2:w", operator)?.[0]).toBe(expected);
  });

  test("what the soloist plays is left to the soloist, but never the last note", () => {
    const solo = [{ midi: 76, offset: noQuarters, end: quarters(4) }];
    expect(written("c5+e5:w", "c3:w", chords.leaveToSoloist, { solo })?.[0]).toBe("0 c5 4");
    expect(written("e5:w", "c3:w", chords.leaveToSoloist, { solo })).toBeNull();
  });

  test("notes go over to the hand that has room", () => {
    expect(written("r:w", "c2+c3+e4:w", toTheOtherHand, { rightFromMidi: 60 })).toEqual([
      "0 e4 4",
      "0 c2+c3 4",
    ]);
    expect(written("c5:w", "c2+e4:w", toTheOtherHand, { rightFromMidi: 60 })).toEqual([
      "0 e4+c5 4",
      "0 c2 4",
    ]);
  });

  test("a leap of two octaves comes an octave nearer, the bass stays", () => {
    expect(written("r:w", "c2:h g4+c5:h", shorterLeaps("left"))?.slice(1)).toEqual(["0 c2 2", "2 g3+c4 2"]);
  });

  test("every other stroke, strokes on the beat, the outline of a run", () => {
    expect(written(times("c5:e", 8), "c3:w", strokes.halfRate("right"))?.slice(0, 4)).toEqual([
      "0 c5 1",
      "1 c5 1",
      "2 c5 1",
      "3 c5 1",
    ]);
    expect(written(times("c4+e4:e", 8), "c3:w", strokes.onTheBeat("right"))?.slice(0, 2)).toEqual([
      "0 c4+e4 1",
      "1 c4+e4 1",
    ]);
    expect(
      written("c5:s d5 e5 f5 g5 f5 e5 d5 c5:h", "c3:w", strokes.outlineRun("right"))?.slice(0, 4),
    ).toEqual(["0 c5 1/2", "1/2 e5 1/2", "1 g5 1/2", "3/2 e5 1/2"]);
  });
});

const operators: readonly Operator[] = (["right", "left"] as const).flatMap((hand) => [
  tremoloFor(hand),
  uncounted(hand),
  chords.dropInnerDoublings(hand),
  chords.singleForOctave(hand),
  chords.outerNotes(hand),
  chords.lineAlone(hand),
  chords.withinReach(hand),
  chords.roll(hand),
  shorterLeaps(hand),
  strokes.halfRate(hand),
  strokes.onTheBeat(hand),
  strokes.outlineRun(hand),
]);

/** For each staff and voice, from where to where it is filled without a gap. */
function filled(events: readonly BarEvent[]): Map<string, string> {
  const spans = new Map<string, string>();
  const voices = new Set(events.map(({ staff, voice }) => `${staff}/${voice}`));
  for (const voice of voices) {
    const of = events
      .filter((event) => `${event.staff}/${event.voice}` === voice)
      .sort((a, b) => compareQuarters(a.offset, b.offset));
    const isWhole = of.every(
      (event, index) =>
        index === 0 || writeQuarters(endOf(of[index - 1] as BarEvent)) === writeQuarters(event.offset),
    );
    const [first, last] = [of[0] as BarEvent, of.at(-1) as BarEvent];
    spans.set(
      voice,
      `${writeQuarters(first.offset)}–${writeQuarters(endOf(last))}${isWhole ? "" : " with gaps"}`,
    );
  }
  return spans;
}

/** Even chords, and everything that reductions are printed with, on up to three staves. */
const music = fc.oneof(arbitraryPiano, arbitraryReduction);

/** What an operator is told of the first bar of a score. */
const aboutBar = (score: Score): BarToRewrite => ({
  ...bar,
  length: score.bars[0]?.length ?? quarters(4),
  staffCount: score.parts.find(({ role }) => role === "reduction")?.staffCount ?? 2,
});

describe("laws", () => {
  const operator = fc.constantFrom(...operators);
  const line = fc.integer({ min: 50, max: 70 });

  test("every voice is as long as before, without a gap", () => {
    fc.assert(
      fc.property(music, operator, (score, apply) => {
        const events = eventsOf(score);
        const after = apply.apply(events, aboutBar(score));
        if (after !== null) expect(filled(after)).toEqual(filled(events));
      }),
      { numRuns: 200 },
    );
  });

  test("notes that go over to the other hand stay the same notes", () => {
    const keys = (events: readonly BarEvent[]) =>
      events
        .flatMap((event) =>
          soundedBy(event).map(
            (pitch) => `${writeQuarters(event.offset)} ${midiOf(pitch)} ${writeQuarters(event.length)}`,
          ),
        )
        .sort();
    fc.assert(
      fc.property(music, line, (score, rightFromMidi) => {
        const events = eventsOf(score);
        const after = toTheOtherHand.apply(events, { ...aboutBar(score), rightFromMidi });
        if (after !== null) expect([...new Set(keys(after))]).toEqual([...new Set(keys(events))]);
      }),
      { numRuns: 100 },
    );
  });

  test("done twice, most of it is done", () => {
    const lasting = (["right", "left"] as const).flatMap((hand) => [
      tremoloFor(hand),
      chords.outerNotes(hand),
      chords.lineAlone(hand),
      chords.withinReach(hand),
      chords.roll(hand),
    ]);
    fc.assert(
      fc.property(music, fc.constantFrom(...lasting), (score, apply) => {
        const once = apply.apply(eventsOf(score), aboutBar(score));
        const twice = once && apply.apply(once, aboutBar(score));
        if (once && twice) expect(writeEvents(twice)).toBe(writeEvents(once));
      }),
      { numRuns: 100 },
    );
  });

  test("the print itself loses nothing", () => {
    fc.assert(
      fc.property(music, (score) => {
        const events = eventsOf(score);
        expect(lossOf(compareBar(events, events, beatsOf(quarters(4), quarters(1))))).toBe(0);
      }),
      { numRuns: 50 },
    );
  });
});

test("beats fill a bar", () => {
  expect(beatsOf(quarters(3), quarters(3, 2)).map(writeQuarters)).toEqual(["0", "3/2"]);
  expect(addQuarters(quarters(3, 2), quarters(3, 2))).toEqual(quarters(3));
});
