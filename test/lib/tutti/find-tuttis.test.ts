import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leaveOut } from "@/lib/score/leave-out";
import { findPerformedOrder } from "@/lib/score/performed-order";
import {
  addQuarters,
  noQuarters,
  quartersAsNumber,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import { findSilentSpans } from "@/lib/score/silent-spans";
import { readTempoMap } from "@/lib/score/tempo-map";
import { findSoloSpans } from "@/lib/tutti/find-solo-spans";
import { findTuttis, type TuttiOptions } from "@/lib/tutti/find-tuttis";
import { at, buildScore, type ScoreText } from "../../builders/build-score";

function tuttis(text: ScoreText, options?: TuttiOptions) {
  const score = buildScore({ tempo: 60, ...text });
  return findTuttis(score, findPerformedOrder(score), readTempoMap(score), options);
}

/** "opening 1–2: 2 bars, 8 quarters, 8 s". */
const say = (text: ScoreText): string[] =>
  tuttis(text).map(({ place, firstBarLabel, lastBarLabel, barCount, quarters, seconds }) => {
    const bars = `${barCount} bar${barCount === 1 ? "" : "s"}`;
    return `${place} ${firstBarLabel}–${lastBarLabel}: ${bars}, ${writeQuarters(quarters)} quarters, ${seconds} s`;
  });

const piano = (bars: number) => Array.from({ length: bars }, () => "c3:w").join(" | ");

describe("tuttis", () => {
  it("are found before, between and after the solo", () => {
    expect(say({ solo: "R*2 | c5:w | R*3 | c5:w | R", piano: piano(8) })).toEqual([
      "opening 1–2: 2 bars, 8 quarters, 8 s",
      "interlude 4–6: 3 bars, 12 quarters, 12 s",
      "closing 8–8: 1 bar, 4 quarters, 4 s",
    ]);
  });

  it("run from the exact end of the last solo note to the exact onset of the next", () => {
    const text = { solo: "c5:h. r:q | R | r:e c5:e r:h.", piano: piano(3) };
    expect(say(text)).toEqual(["interlude 2–2: 1 bar, 11/2 quarters, 5.5 s"]);
    const [tutti] = tuttis(text);
    expect(tutti).toMatchObject({ from: at(0, 3), to: at(2, "1/2") });
    expect(tutti?.evidence).toMatchObject({ lastSoloNoteId: "n0-0-0", nextSoloNoteId: "n0-2-1" });
  });

  it("do not begin while a tied note sounds", () => {
    expect(say({ solo: "c5:w~ | c5:w~ | c5:q r:h. | R | c5:w", piano: piano(5) })).toEqual([
      "interlude 4–4: 1 bar, 7 quarters, 7 s",
    ]);
  });

  it("end at the note that a grace note leads to", () => {
    expect(say({ solo: "c5:w | R | d5:s(grace) c5:w", piano: piano(3) })).toEqual([
      "interlude 2–2: 1 bar, 4 quarters, 4 s",
    ]);
  });

  it("hold cue-size notes, hidden notes and rests of any size for silence", () => {
    const [tutti] = tuttis({ solo: "c5:w | g4:w(cue) | r:h(cue) c5:h(hidden) | c5:w", piano: piano(4) });
    expect(tutti).toMatchObject({ firstBarLabel: "2", lastBarLabel: "3", barCount: 2 });
    expect(tutti?.evidence).toMatchObject({ cueBarLabels: ["2"], onsetCount: 2, basis: "rests" });
  });

  it("need a bar and two seconds", () => {
    expect(say({ solo: "c5:h r:h | r:q c5:h.", piano: piano(2) })).toEqual([]);
    expect(say({ tempo: 180, solo: "c5:w | R | c5:w", piano: piano(3) })).toEqual([]);
  });

  it("need something to begin in reduction or orchestra", () => {
    expect(say({ solo: "c5:w | R*2 | c5:w", piano: "c3:w~ | c3:w~ | c3:w | R" })).toEqual([]);
    expect(
      say({ solo: "c5:w | R*2 | c5:w", piano: "R*4", orchestra: { Oboe: "R | c5:w | R*2" } }),
    ).toHaveLength(1);
    expect(say({ solo: "c5:w | R*2 | c5:w" })).toEqual([]);
  });

  it("are long beyond sixteen bars, or what the players say", () => {
    const text = (rest: number) => ({ solo: `c5:w | R*${rest} | c5:w`, piano: piano(rest + 2) });
    expect(tuttis(text(16))[0]?.isLong).toBe(false);
    expect(tuttis(text(17))[0]?.isLong).toBe(true);
    expect(tuttis(text(16), { longBars: 15 })[0]?.isLong).toBe(true);
    expect(() => tuttis(text(3), { longBars: -1 })).toThrow(RangeError);
  });

  it("count bars as players do: no upbeat, halves of a divided bar together", () => {
    expect(say({ solo: "r:q | R*3 | c5:w", piano: `c3:q | ${piano(4)}` })).toEqual([
      "opening 1–3: 3 bars, 13 quarters, 13 s",
    ]);
    const divided = { metre: "4/4", solo: "c5:w | R | r:h :| r:h | R | c5:w" } as const;
    expect(say({ ...divided, piano: "c3:w | c3 | c3:h :| c3:h | c3:w | c3" })).toEqual([
      "interlude 2–3: 1 bar, 6 quarters, 6 s",
      "interlude 2–5: 3 bars, 12 quarters, 12 s",
    ]);
  });

  it("count the last bar, however much of it the upbeat took", () => {
    const text = {
      metre: "3/8",
      solo: "c5:e | c5:q. | R*2 | r:q",
      piano: "r:e | c3:q. | c3 | c3 | c3:q",
    } as const;
    expect(say(text)).toEqual(["closing 2–4: 3 bars, 4 quarters, 4 s"]);
  });

  it("are found in every round of a repeat, and across its signs", () => {
    expect(
      say({
        solo: "c5:w |: c5 | R*2 :| c5",
        piano: piano(5)
          .replace("c3:w | c3:w", "c3:w |: c3:w")
          .replace(/ \| c3:w$/, " :| c3:w"),
      }),
    ).toEqual(["interlude 3–4: 2 bars, 8 quarters, 8 s", "interlude 3–4: 2 bars, 8 quarters, 8 s"]);
    const [across] = tuttis({ solo: "R | c5:w | R :| R", piano: piano(4) }).filter(
      ({ place }) => place === "interlude",
    );
    expect(across).toMatchObject({
      barCount: 2,
      from: at(2),
      to: at(1),
      firstBarLabel: "3",
      lastBarLabel: "1",
    });
  });

  it("become shorter with a cut, and count its pieces together", () => {
    const score = buildScore({ tempo: 60, solo: "c5:w | R*6 | c5:w", piano: piano(8) });
    const order = leaveOut(score, findPerformedOrder(score), [{ from: at(2, 2), to: at(5, 2) }]);
    expect(findTuttis(score, order, readTempoMap(score))).toMatchObject([{ barCount: 3, seconds: 12 }]);
  });

  it("follow the words where there is no solo part", () => {
    const score = (piano: string) => {
      const built = buildScore({ tempo: 60, piano });
      return findTuttis(built, findPerformedOrder(built), readTempoMap(built));
    };
    const found = score('"Tutti." c3:w | c3 | "Solo" c3 | c3 | "TUTTI" c3 | "Cl. Solo" c3');
    expect(
      found.map(({ place, firstBarLabel, lastBarLabel }) => `${place} ${firstBarLabel}–${lastBarLabel}`),
    ).toEqual(["opening 1–2", "closing 5–6"]);
    expect(found[0]?.evidence).toMatchObject({ basis: "words", lastSoloNoteId: null });
    expect(score('c3:w | "Solo" c3')).toMatchObject([{ place: "opening", barCount: 1 }]);
    expect(score("c3:w | c3")).toEqual([]);
  });

  it("are none in a piece without bars, the whole piece where the soloist never plays", () => {
    expect(say({ solo: "" })).toEqual([]);
    expect(say({ solo: "R*3", piano: piano(3) })).toEqual(["opening 1–3: 3 bars, 12 quarters, 12 s"]);
  });
});

describe("laws of solo and silence", () => {
  const token = fc.constantFrom("c5:q", "r:q", "d5:h", "r:h", "e5:h.", "r:w", "c5:q(cue)", "r:e", "c5:e");
  const text = fc.array(fc.array(token, { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 8 });

  it("adds up: solo and silence fill the piece without overlap", () => {
    fc.assert(
      fc.property(text, (bars) => {
        const score = buildScore({ solo: bars.map((bar) => bar.join(" ")).join(" | ") });
        const order = findPerformedOrder(score);
        const [solo] = score.parts;
        if (!solo) throw new Error("The builder gave no part");
        const played = findSoloSpans(score, order).map(({ performedFrom, performedTo }) => [
          performedFrom,
          performedTo,
        ]);
        const silent = findSilentSpans(score, order, solo).map(({ from, to }) => [from, to]);
        const total = [...played, ...silent].reduce(
          (sum, [from, to]) => addQuarters(sum, subtractQuarters(to ?? noQuarters, from ?? noQuarters)),
          noQuarters,
        );
        expect(quartersAsNumber(total)).toBe(quartersAsNumber(order.length));
      }),
    );
  });

  it("does not depend on how a note is divided by ties", () => {
    const whole = buildScore({ solo: "c5:w | R | c5:w | R" });
    const tied = buildScore({ solo: "c5:q~ c5:e~ c5:e~ c5:h | R | c5:h.~ c5:q | R" });
    const spans = (score: typeof whole) =>
      findSoloSpans(score, findPerformedOrder(score)).map(({ performedFrom, performedTo }) => [
        performedFrom,
        performedTo,
      ]);
    expect(spans(tied)).toEqual(spans(whole));
  });
});
