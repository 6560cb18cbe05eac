import { describe, expect, it } from "vitest";
import { assessTurn, type TurnMoment } from "@/lib/engrave/pages/assess-turn";
import { readHandWork } from "@/lib/engrave/pages/hand-work";
import { readTurns } from "@/lib/engrave/pages/turns-of-print";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { quarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import { at, buildScore } from "@/test/builders/build-score";

/** The turn before the second bar, at ♩ = 60: a quarter note is a second. */
function turnOf(
  right: string,
  left: string,
  reader: "pianist" | "soloist" = "pianist",
  solo = "R | R",
): TurnMoment {
  return atBar(buildScore({ metre: "4/4", tempo: 60, solo, piano: [right, left] }), reader);
}

function atBar(score: Score, reader: "pianist" | "soloist", seconds = 4): TurnMoment {
  const role = reader === "pianist" ? "reduction" : "solo";
  const parts = score.parts.filter((part) => part.role === role);
  const work = readHandWork(score, findPerformedOrder(score), readTempoMap(score), parts, reader);
  return assessTurn(work, seconds, "on");
}

const freeOf = ({ freeHand, freeSeconds }: TurnMoment) => [freeHand, Number(freeSeconds.toFixed(3))];

describe("a turn at the end of a page", () => {
  it.each([
    ["both hands play", "c5:w | c5:w", "c3:w | c3:w", null, 0],
    ["the right hand rests before it", "c5:h r:h | c5:w", "c3:w | c3:w", "right hand", 2],
    ["the left hand rests before it", "c5:w | c5:w", "c3:h. r:q | c3:w", "left hand", 1],
    ["nobody plays until the second beat", "c5:w | r:q c5:h.", "c3:w | r:h c3:h", "right hand", 1],
    ["rests on both sides add up", "c5:h. r:q | r:h c5:h", "c3:w | r:q c3:h.", "right hand", 2],
    ["a rest while the other hand reads on does not count", "c5:w | R", "c3:w | c3:w", null, 0],
    ["a tie over the bar line binds the hand", "c5:h r:h | c5:w", "c3:w~ | c3:h r:h", "right hand", 2],
    ["tied in both hands", "c5:w~ | c5:h r:h", "c3:w~ | c3:h r:h", null, 0],
    ["cue notes bind nobody", "c5:w(cue) | c5:w", "c3:w | c3:w", "right hand", 4],
  ])("%s", (_what, right, left, hand, seconds) => {
    expect(freeOf(turnOf(right, left))).toEqual([hand, seconds]);
  });

  it("costs nothing with two free seconds, and most with none", () => {
    const costs = ["c5:h r:h", "c5:h. r:q", "c5:h.. r:e", "c5:w"].map(
      (bar) => turnOf(`${bar} | c5:w`, "c3:w | c3:w").cost,
    );
    expect(costs).toEqual([0, 10, 77.5, 100]);
  });

  it("counts a little for a hand that is free on the new page only", () => {
    expect(turnOf("c5:w | R", "c3:w | c3:w").cost).toBeCloseTo(85.6);
  });

  it("lets the hand leave a chord under a hold, at half the cost", () => {
    const turn = turnOf("c5:h. c5:q(fermata) | c5:w", "c3:h. c3:q(fermata) | c3:w");
    expect(turn.isAfterHold).toBe(false);
    const held = atBar(
      buildScore({ metre: "4/4", tempo: 60, piano: ["c5:h. c5:q(fermata) | c5:w", "c3:w | c3:w"] }),
      "pianist",
      4.75,
    );
    expect(held.isAfterHold).toBe(true);
    // A quarter held for 1.75 seconds, less the touch.
    expect(freeOf(held)).toEqual(["right hand", 1.5]);
    expect(held.cost).toBe(2.5);
  });

  it("takes the hold of one note for its whole chord", () => {
    const score = buildScore({
      metre: "4/4",
      tempo: 60,
      piano: ["c5:h. c5+e5:q(fermata) | c5:w", "c3:w | c3:w"],
    });
    const one = (index: number) =>
      score.parts.map((part) => ({
        ...part,
        notes: part.notes.map((note) =>
          note.isChordMember === (index === 1) ? note : { ...note, hasFermata: false },
        ),
      }));
    for (const index of [0, 1]) {
      const held = atBar({ ...score, parts: one(index) }, "pianist", 4.75);
      expect(freeOf(held)).toEqual(["right hand", 1.5]);
    }
  });

  it("lets the hand leave a note that the pedal holds, and only such a note", () => {
    const score = buildScore({ metre: "4/4", tempo: 60, piano: ["c5:h c5:h | c5:w", "c3:w | c3:w"] });
    const pedal = (onset: number, type: string) =>
      ({ kind: "pedal", type, barIndex: 0, onset: quarters(onset), staff: 2 }) as const;
    const withPedal = (...directions: ReturnType<typeof pedal>[]) => ({
      ...score,
      parts: score.parts.map((part) => ({ ...part, directions })),
    });
    const held = atBar(withPedal(pedal(2, "start"), pedal(4, "stop")), "pianist");
    expect(freeOf(held)).toEqual(["right hand", 1.75]);
    expect(
      freeOf(atBar(withPedal(pedal(0, "start"), pedal(2, "change"), pedal(4, "stop")), "pianist")),
    ).toEqual(freeOf(held));
    expect(freeOf(atBar(withPedal(pedal(2, "start"), pedal(3, "stop")), "pianist"))).toEqual([null, 0]);
    expect(freeOf(atBar(withPedal(pedal(2, "start")), "pianist"))).toEqual([null, 0]);
  });

  it("takes both hands for a chord wider than a tenth in one staff", () => {
    expect(freeOf(turnOf("c5:h r:h | c5:w", "c3:h c3+e4:h | c3:w"))).toEqual(["right hand", 2]);
    expect(freeOf(turnOf("c5:h r:h | c5:w", "c3:h c3+f4:h | c3:w"))).toEqual([null, 0]);
  });

  it("asks a soloist's own rests, and nothing of the piano", () => {
    const solo = (text: string) => turnOf("c5:w | c5:w", "c3:w | c3:w", "soloist", text);
    expect(freeOf(solo("c5:h. r:q | r:q c5:h."))).toEqual(["player", 2]);
    expect(freeOf(solo("c5:w | c5:w"))).toEqual([null, 0]);
    // A player who holds a note cannot turn.
    expect(freeOf(solo("c5:h c5:h(fermata) | c5:w"))).toEqual([null, 0]);
  });

  it("tells the silence that follows", () => {
    expect(turnOf("c5:w | R", "c3:w | r:h c3:h").silenceAfter).toBe(2);
    expect(turnOf("c5:w~ | c5:w", "c3:w | R").silenceAfter).toBe(0);
  });
});

describe("readTurns", () => {
  const printed = (score: Score) => ({
    score,
    cuts: [],
    tempo: {},
    reader: "pianist" as const,
    barIds: score.bars.map(({ id }) => id),
  });
  const seconds = (moments: readonly TurnMoment[]) =>
    moments.map(({ atSeconds, direction }) => `${direction} ${atSeconds}`);

  it("turns at each passing, back too, where a repeat leads over the page", () => {
    const turns = readTurns(
      printed(buildScore({ metre: "4/4", tempo: 60, piano: "|: c3:w | c3:w | c3:w :| c3:w" })),
    );
    expect(seconds(turns(1))).toEqual(["on 4", "back 12", "on 16"]);
    expect(seconds(turns(2))).toEqual(["on 8", "back 12", "on 20"]);
    expect(seconds(turns(3))).toEqual(["on 24"]);
    expect(turns(4)).toEqual([]);
  });

  it("goes by the duo's tempo", () => {
    const score = buildScore({ metre: "4/4", tempo: 60, piano: ["c5:h r:h | c5:w", "c3:w | c3:w"] });
    const tempi = [{ at: at(0), quartersPerMinute: 120 }];
    expect(readTurns({ ...printed(score), tempo: { tempi } })(1).map(freeOf)).toEqual([["right hand", 1]]);
  });

  it("knows where cut music is printed", () => {
    const score = buildScore({
      metre: "4/4",
      tempo: 60,
      piano: ["c5:w | c5:h r:h | c5:w | c5:w | c5:w", "c3:w | c3:w | c3:w | c3:w | c3:w"],
    });
    // From the middle of bar 2 to the middle of bar 4: one bar, printed with the number of the second.
    const cuts = [{ from: at(1, 2), to: at(3, 2) }];
    const ids = score.bars.map(({ id }) => id);
    const turns = readTurns({ ...printed(score), cuts, barIds: [ids[0] ?? "", ids[1] ?? "", ids[4] ?? ""] });
    expect(seconds(turns(1))).toEqual(["on 4"]);
    expect(seconds(turns(2))).toEqual(["on 8"]);
    expect(turns(3)).toEqual([]);
  });
});
