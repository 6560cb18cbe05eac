import { describe, expect, it } from "vitest";
import type { CutSpan } from "@/lib/score/cut-span";
import type { Note } from "@/lib/score/note";
import type { Score } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import { type ListenManner, plainManner } from "@/lib/sound/listen-manner";
import type { ListenRequest } from "@/lib/sound/listen-request";
import { readSchedule } from "@/lib/sound/read-schedule";
import type { Schedule } from "@/lib/sound/schedule";
import { at, buildScore, type ScoreText } from "../../builders/build-score";
import { barsOf, clicks, onsets, sounds, velocities } from "./schedule-views";

const cut = (from: CutSpan["from"], to: CutSpan["to"]): CutSpan => ({ from, to });
const everything: ListenRequest = { kind: "piece", cuts: [], from: null };

const listen = (score: Score, request: ListenRequest, manner: Partial<ListenManner> = {}): Schedule =>
  readSchedule(score, readTempoMap(score), request, { ...plainManner, ...manner });

/** At a quarter a second. */
const play = (
  text: ScoreText,
  request: ListenRequest = everything,
  manner: Partial<ListenManner> = {},
): Schedule => listen(buildScore({ tempo: 60, ...text }), request, manner);

const join = (
  asked: { cut: CutSpan } & Partial<Extract<ListenRequest, { kind: "join" }>>,
): ListenRequest => ({ kind: "join", cuts: [], barsBefore: 1, barsAfter: 1, how: "with-the-cut", ...asked });

/** The same score with some notes changed. */
function changeNotes(score: Score, change: (note: Note, index: number) => Partial<Note>): Score {
  const parts = score.parts.map((part) => ({
    ...part,
    notes: part.notes.map((note, index) => ({ ...note, ...change(note, index) })),
  }));
  return { ...score, parts };
}

describe("what sounds", () => {
  it("has every note at its second", () => {
    expect(sounds(play({ solo: "c4:q d4:h e4:q | q=120 c5:w" }))).toEqual([
      "c4 0–1",
      "d4 1–3",
      "e4 3–4",
      "c5 4–6",
    ]);
  });

  it("sounds at sounding pitch", () => {
    const soloTransposition = { diatonic: -1, chromatic: -2, octaveChange: 0 };
    expect(onsets(play({ solo: "c5:w", soloTransposition }))).toBe("a#4 0");
  });

  it.each([
    ["one note of tied ones, over the bar line", "c4:h d4:h~ | d4:w", ["c4 0–2", "d4 2–8"]],
    ["a tied note again in the next round", "|: c4:w~ | c4:w :|", ["c4 0–7.988", "c4 8–16"]],
    ["no cue, no hidden note", "c4:h(cue) d4:h(hidden) | e4:w", ["e4 4–8"]],
    ["a staccato note half as long", "c4:h(staccato) d4:h", ["c4 0–1", "d4 2–4"]],
    ["a note under a fermata as long as it is held", "c4:h(fermata) d4:h", ["c4 0–3.5", "d4 3.5–5.5"]],
    ["the same key again only after it came up", "c4:h c4:h", ["c4 0–1.988", "c4 2–4"]],
  ])("has %s", (_name, solo, expected) => {
    expect(sounds(play({ solo }))).toEqual(expected);
  });

  it("makes one note of a unison between two staves", () => {
    expect(sounds(play({ piano: ["c4:h r:h", "c4:w"] }))).toEqual(["c4 0–4"]);
  });

  it("takes the solo away, or what accompanies it", () => {
    const text = { solo: "c5:w", piano: "c3:w" };
    expect(onsets(play(text, everything, { hasSolo: false }))).toBe("c3 0");
    expect(onsets(play(text, everything, { hasAccompaniment: false }))).toBe("c5 0");
  });

  it("leaves the orchestra to the reduction where there is one", () => {
    expect(onsets(play({ solo: "c5:w", orchestra: { Oboe: "e5:w" }, piano: "c3:w" }))).toBe("c5 0 c3 0");
    expect(onsets(play({ solo: "c5:w", orchestra: { Oboe: "e5:w" } }))).toBe("c5 0 e5 0");
  });

  it("plays a measured tremolo stroke by stroke", () => {
    const score = changeNotes(buildScore({ tempo: 60, solo: "c4:q r:h." }), () => ({
      tremolo: { type: "single", marks: 2 },
    }));
    expect(onsets(listen(score, everything))).toBe("c4 0 c4 0.25 c4 0.5 c4 0.75");
  });

  it("plays a tremolo in triplets as triplets", () => {
    const score = changeNotes(buildScore({ tempo: 60, solo: "c4:q r:h." }), () => ({
      tremolo: { type: "single", marks: 1, tuplet: { actual: 3, normal: 2 } },
    }));
    expect(onsets(listen(score, everything))).toBe("c4 0 c4 0.333 c4 0.667");
  });

  it("repeats every note of a chord whose tremolo is written on one of them", () => {
    const score = changeNotes(buildScore({ tempo: 60, solo: "c4+e4:q r:h." }), (_note, index) => ({
      tremolo: index === 0 ? { type: "single", marks: 1 } : null,
    }));
    expect(onsets(listen(score, everything))).toBe("c4 0 e4 0 c4 0.5 e4 0.5");
  });

  it("lets two notes of a tremolo alternate over the length of both", () => {
    const score = changeNotes(buildScore({ tempo: 60, solo: "c4:h e4:h" }), (_note, index) => ({
      tremolo: { type: index === 0 ? "start" : "stop", marks: 1 },
    }));
    expect(onsets(listen(score, everything))).toBe("c4 0 e4 0.5 c4 1 e4 1.5 c4 2 e4 2.5 c4 3 e4 3.5");
  });
});

describe("grace notes", () => {
  it("come before the beat, out of what sounds before", () => {
    expect(sounds(play({ solo: "c4:h d5:e(grace) e5:h" }))).toEqual(["c4 0–1.915", "d5 1.915–2", "e5 2–4"]);
  });

  it("take half of a short note before them at most", () => {
    expect(onsets(play({ tempo: 600, solo: "c4:q d5:e(grace) e5:e(grace) f5:h." }))).toBe(
      "c4 0 d5 0.05 e5 0.075 f5 0.1",
    );
  });

  it("come on the beat where nothing is before them", () => {
    expect(onsets(play({ solo: "d5:e(grace) e5:w" }))).toBe("d5 0 e5 0.085");
    const solo = "c4:w | R | d5:e(grace) e5:w";
    expect(onsets(play({ solo }, join({ cut: cut(at(1), at(2)) })))).toBe("c4 0 d5 4 e5 4.085");
  });
});

describe("loudness", () => {
  it.each([
    ["mezzo forte before any sign", "c4:w", [80]],
    ["the signs", "p c4:h f d4:h | pp e4:w", [49, 96, 33]],
    ["a sforzato for its note only", "p c4:q sf d4:q e4:h", [49, 112, 49]],
    ["a fortepiano", "fp c4:h d4:h", [96, 49]],
    ["an accent", "p c4:h(accent) d4:h", [56, 49]],
    ["a hairpin up to the sign at its end", "p < c4:q d4:q e4:q f4:q / f | g4:w", [49, 61, 72, 84, 96]],
    ["a hairpin that leads to no sign", "f > c4:h d4:h / | e4:w", [96, 88, 80]],
  ])("has %s", (_name, solo, expected) => {
    expect(velocities(play({ solo }))).toEqual(expected);
  });
});

describe("a span", () => {
  const span = (from: CutSpan["from"], to: CutSpan["to"], cuts: CutSpan[] = []): ListenRequest => {
    return { kind: "span", from, to, cuts };
  };

  it("begins and ends inside bars; what was struck before is not heard", () => {
    const solo = "c4:w | d4:h e4:h | f4:q g4:h.";
    expect(sounds(play({ solo }, span(at(1, 1), at(2, 2))))).toEqual(["e4 1–3", "f4 3–4", "g4 4–5"]);
  });

  it.each([
    ["over a cut", "R*6", span(at(0), at(6 - 1, 4), [cut(at(2), at(4))]), "1 2 5 6"],
    ["out of a repeat by the shortest way", "|: R*2 :| R*2", span(at(1), at(3)), "2′ 3"],
    ["inside a repeat, the first time", "|: R*3 :|", span(at(1), at(2)), "2"],
    ["with the repeats that lie inside", "R |: R :| R", span(at(0), at(2, 4)), "1 2 2′ 3"],
  ])("goes %s", (_name, solo, request, expected) => {
    expect(barsOf(play({ solo, tempo: 60 }, request))).toBe(expected);
  });

  it("is refused where it ends before it begins", () => {
    expect(() => play({ solo: "R*3" }, span(at(2), at(1)))).toThrow(RangeError);
  });
});

describe("the piece", () => {
  it.each<[string, ListenRequest, string]>([
    ["from the beginning", everything, "1 2 3 2′ 3′ 4"],
    ["with its cuts, in each round", { ...everything, cuts: [cut(at(2), at(3))] }, "1 2 2′ 4"],
    ["from a bar on", { ...everything, from: { ...at(2), pass: 1 } }, "3 2′ 3′ 4"],
    ["from a bar in the second round on", { ...everything, from: { ...at(2), pass: 2 } }, "3′ 4"],
    [
      "from behind the cut when it takes that bar",
      { ...everything, from: { ...at(2), pass: 2 }, cuts: [cut(at(2), at(3))] },
      "4",
    ],
  ])("plays %s", (_name, request, expected) => {
    expect(barsOf(play({ solo: "R |: R*2 :| R" }, request))).toBe(expected);
  });
});

describe("a join", () => {
  const solo = "c4:w | d4:w | e4:w | f4:w | g4:w | a4:w";
  const middle = cut(at(2), at(4));

  it("goes across the cut without a gap and without an overlap", () => {
    const schedule = play({ solo }, join({ cut: middle }));
    expect(sounds(schedule)).toEqual(["d4 0–4", "g4 4–8"]);
    expect(schedule.seams).toEqual([{ seconds: 4, fromBar: 1, toBar: 4 }]);
  });

  it("is heard as written, from the same bar to the same bar", () => {
    const schedule = play({ solo }, join({ cut: middle, how: "without-it" }));
    expect(onsets(schedule)).toBe("d4 0 e4 4 f4 8 g4 12");
    expect(schedule.seams).toEqual([]);
  });

  it("is heard with the cut and then without it", () => {
    const { sections, ...schedule } = play({ solo }, join({ cut: middle, how: "in-turn" }));
    expect(onsets(schedule)).toBe("d4 0 g4 4 d4 9.2 e4 13.2 f4 17.2 g4 21.2");
    expect(sections).toEqual([
      { kind: "with-the-cut", startSeconds: 0, endSeconds: 8 },
      { kind: "without-it", startSeconds: 9.2, endSeconds: 25.2 },
    ]);
  });

  it("ends what the cut breaks, and strikes anew what lost its beginning", () => {
    const tied = "c4:w~ | c4:w~ | c4:w | d4:w~ | d4:w";
    expect(sounds(play({ solo: tied }, join({ cut: cut(at(1), at(2)) })))).toEqual(["c4 0–3.988", "c4 4–8"]);
    expect(sounds(play({ solo: tied }, join({ cut: cut(at(0, 2), at(4)) })))).toEqual(["c4 0–2", "d4 2–6"]);
  });

  it("takes a bar that the cut divides on top of the whole ones", () => {
    expect(onsets(play({ solo }, join({ cut: cut(at(2, 1), at(4, 3)) })))).toBe("d4 0 e4 4 a4 6");
  });

  it("begins with the music where the cut takes the beginning, and ends with it where it takes the end", () => {
    expect(onsets(play({ solo }, join({ cut: cut(at(0), at(4)) })))).toBe("g4 0");
    expect(onsets(play({ solo }, join({ cut: cut(at(0), at(4)), how: "without-it" })))).toBe(
      "c4 0 d4 4 e4 8 f4 12 g4 16",
    );
    expect(onsets(play({ solo }, join({ cut: cut(at(2), at(5, 4)) })))).toBe("d4 0");
  });

  it("has the other cuts around it", () => {
    const others = [cut(at(1), at(2))];
    expect(onsets(play({ solo }, join({ cut: cut(at(3), at(5)), cuts: others, barsBefore: 2 })))).toBe(
      "c4 0 e4 4 a4 8",
    );
  });

  it("inside a repeated section is heard in its first round", () => {
    expect(barsOf(play({ solo: "R |: R*4 :| R" }, join({ cut: cut(at(2), at(3)), barsBefore: 2 })))).toBe(
      "1 2 4",
    );
  });
});

describe("the manner", () => {
  it("scales every second by the percentage, pauses and count-in too", () => {
    const request = join({ cut: cut(at(1), at(2)), how: "in-turn" });
    const text = { solo: "c4:h(fermata) d4:h | R | d5:e(grace) e4:w" };
    const whole = play(text, request, { hasCountIn: true });
    const slow = play(text, request, { hasCountIn: true, tempoPercent: 40 });
    for (const [index, { onsetSeconds, endSeconds }] of slow.notes.entries()) {
      expect(onsetSeconds).toBeCloseTo((whole.notes[index]?.onsetSeconds ?? Number.NaN) * 2.5, 9);
      expect(endSeconds).toBeCloseTo((whole.notes[index]?.endSeconds ?? Number.NaN) * 2.5, 9);
    }
    expect(slow.totalSeconds).toBeCloseTo(whole.totalSeconds * 2.5, 9);
    expect(slow.countInSeconds).toBeCloseTo(whole.countInSeconds * 2.5, 9);
  });

  it.each([29, 151, Number.NaN])("refuses a tempo of %s percent", (tempoPercent) => {
    expect(() => play({ solo: "R" }, everything, { tempoPercent })).toThrow(RangeError);
  });
});

describe("the count-in", () => {
  const counted = (text: ScoreText, request: ListenRequest) =>
    clicks(play(text, request, { hasCountIn: true }));

  it.each<[string, ScoreText, ListenRequest, string]>([
    ["a bar", { solo: "R" }, everything, "!-4 -3 -2 -1"],
    ["a bar of three", { metre: "3/4", solo: "R" }, everything, "!-3 -2 -1"],
    ["two bars of two", { metre: "2/4", solo: "R" }, everything, "!-4 -3 !-2 -1"],
    ["two bars of dotted beats", { metre: "6/8", solo: "R" }, everything, "!-6 -4.5 !-3 -1.5"],
    ["a bar and what comes before the upbeat", { solo: "c4:q | d4:w" }, everything, "!-7 -6 -5 -4 !-3 -2 -1"],
    [
      "a bar and the beats before the place, in its tempo",
      { solo: "R | q=120 c4:w" },
      { ...everything, from: { ...at(1, 2), pass: 1 } },
      "!-3 -2.5 -2 -1.5 !-1 -0.5",
    ],
    ["no slower under a fermata", { solo: "c4:h(fermata) d4:h" }, everything, "!-4 -3 -2 -1"],
  ])("is %s", (_name, text, request, expected) => {
    expect(counted(text, request)).toBe(expected);
  });

  it("is not there when it is not wanted", () => {
    expect(play({ solo: "R" }, everything, { hasCountIn: false })).toMatchObject({
      countIn: [],
      countInSeconds: 0,
    });
  });
});

describe("where the music is", () => {
  it("goes from attack to attack and from bar line to bar line, on the strip too", () => {
    const { places } = play({ solo: "c4:q d4:h. | R | e4:w" }, { ...everything, cuts: [cut(at(1), at(2))] });
    expect(
      places.map(({ barIndex, startSeconds, endSeconds, pieceFrom, pieceTo, noteId }) => {
        return `${barIndex} ${startSeconds}–${endSeconds} ${pieceFrom}–${pieceTo} ${noteId !== null}`;
      }),
    ).toEqual(["0 0–1 0–1 true", "0 1–4 1–4 true", "2 4–8 8–12 true"]);
  });
});
