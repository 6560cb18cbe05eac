import { describe, expect, test } from "vitest";
import { findMoment, findMoments, layInTime } from "@/app/_data/desk/in-time";
import { keepLately } from "@/app/_data/desk/keep-lately";
import { beatOffsets, soloTexts } from "@/app/_data/desk/solo-text";
import { knowsSolo, listLetters, listTempi, stripOf } from "@/app/_data/desk/strip-of";
import { weighForDesk } from "@/app/_data/desk/weigh";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { findClockStretches } from "@/lib/score/clock-stretches";
import { at, buildScore, type ScoreText } from "@/test/builders/build-score";

const inTimeOf = (text: ScoreText) => layInTime(buildScore(text), printedTempo, 16);

/** Four seconds a bar; bars 2 and 3 are played twice. */
const repeated: ScoreText = {
  tempo: 60,
  solo: "c5:w | |: R | R :| [B] d5:w",
  piano: "c3:w | c3:w | c3:w | c3:w",
};

describe("written places on the clock", () => {
  test("a cut in a repeated section falls out each time, in one stretch each", () => {
    const inTime = inTimeOf(repeated);
    expect(findClockStretches(inTime, { from: at(1), to: at(3) })).toEqual([{ from: 4, to: 20 }]);
    expect(findClockStretches(inTime, { from: at(2), to: at(3) })).toEqual([
      { from: 8, to: 12 },
      { from: 16, to: 20 },
    ]);
  });

  test("a cut from inside a bar to inside another starts and ends there", () => {
    const inTime = inTimeOf(repeated);
    expect(findClockStretches(inTime, { from: at(0, 3), to: at(1, "1/2") })).toEqual([
      { from: 3, to: 4.5 },
      { from: 12, to: 12.5 },
    ]);
  });

  test("an empty span is nowhere", () => {
    expect(findClockStretches(inTimeOf(repeated), { from: at(2), to: at(2) })).toEqual([]);
  });

  test("a place has its first moment, and one for each time it sounds", () => {
    const inTime = inTimeOf(repeated);
    expect(findMoment(inTime, at(2, 2))).toBe(10);
    expect(findMoment(inTime, at(9))).toBeNull();
    expect(findMoments(inTime, 1)).toEqual([4, 12]);
    expect(findMoments(inTime, 3)).toEqual([20]);
  });
});

describe("the strip of a piece", () => {
  test("a letter and a tempo stand wherever their bar sounds", () => {
    const inTime = inTimeOf({
      solo: '|: [A] "Allegro" q=120 c5:w | R :| [B] q=60 d5:w',
      piano: "c3:w | c3:w | c3:w",
    });
    const strip = stripOf(inTime, "Flute", listTempi(inTime, []));
    expect(strip.letters).toEqual([
      { text: "A", at: 0 },
      { text: "A", at: 4 },
      { text: "B", at: 8 },
    ]);
    expect(strip.tempi.map(({ at: moment, beats }) => [moment, beats])).toEqual([
      [0, "120"],
      [4, "120"],
      [8, "60"],
    ]);
    expect(strip.totalSeconds).toBe(12);
  });

  test("where the solo plays is what lies between the tuttis", () => {
    const inTime = inTimeOf(repeated);
    const strip = stripOf(inTime, "Flute", []);
    expect(strip.tuttis.map(({ from, to, barCount }) => [from, to, barCount])).toEqual([[4, 20, 4]]);
    expect(strip.solo).toEqual([
      { from: 0, to: 4 },
      { from: 20, to: 24 },
    ]);
  });

  test("without a solo part and without the word Tutti nothing is said to be played", () => {
    const inTime = inTimeOf({ tempo: 60, orchestra: { Oboe: "c5:w | d5:w" }, piano: "c3:w | c3:w" });
    expect(knowsSolo(inTime)).toBe(false);
    expect(stripOf(inTime, "Solo", []).solo).toEqual([]);
  });

  test("a number a word stands for is marked as assumed, the duo's own replaces the printed one", () => {
    const inTime = inTimeOf({ solo: '"Andante" c5:w | q=60 c5:w', piano: "c3:w | c3:w" });
    const strip = stripOf(inTime, "Flute", listTempi(inTime, []));
    expect(strip.tempi[0]?.words).toBe("Andante");
    expect(strip.tempi[0]?.beats).toMatch(/^≈ \d+$/);
    const own = listTempi(inTime, [{ at: { barIndex: 1, offset: "0" }, quartersPerMinute: 72 }]);
    expect(own[1]).toMatchObject({ beats: "72", source: "own" });
  });

  test("beats are counted as players count them: dotted quarters in 6/8", () => {
    const inTime = inTimeOf({ metre: "6/8", solo: "q=90 c5:h. | c5:h.", piano: "c3:h. | c3:h." });
    expect(listTempi(inTime, [])[0]?.beats).toBe("60");
  });

  test("letters are listed once, in the order of the page", () => {
    const score = buildScore({ tempo: 60, solo: "[A] c5:w | [B] c5:w", piano: "[A] c3:w | c3:w" });
    expect(listLetters({ score })).toEqual([
      { text: "A", barIndex: 0 },
      { text: "B", barIndex: 1 },
    ]);
  });
});

describe("bars in words", () => {
  test("the solo's notes with their beats; rests, cues and tied notes are silent", () => {
    const score = buildScore({
      tempo: 60,
      solo: "f#4:q e5:e d5:e bb4:h~ | bb4:w | c5:w(cue) | R",
      piano: "c3:w | c3:w | c3:w | c3:w",
    });
    expect(soloTexts(score)).toEqual(["1:F#4 2:E5 2.5:D5 3:Bb4", "", "", ""]);
  });

  test.each([
    ["4/4", "c5:w", ["0", "1", "2", "3"]],
    ["6/8", "c5:h.", ["0", "3/2"]],
    ["3/4", "c5:h.", ["0", "1", "2"]],
  ] as const)("%s has its beats", (metre, solo, beats) => {
    const [bar] = buildScore({ metre, tempo: 60, solo, piano: solo.replace("c5", "c3") }).bars;
    expect(bar && beatOffsets(bar)).toEqual(beats);
  });
});

describe("weighing for the screen", () => {
  test("says what the next entry is: a letter in its box, or a bar", () => {
    const inTime = inTimeOf({
      tempo: 60,
      solo: "R*4 | [B] c5:w | R*4 | d5:w",
      piano: Array(10).fill("c3:w").join(" | "),
    });
    expect(weighForDesk(inTime, [], { from: at(1), to: at(3) })).toMatchObject({
      ...{ barCount: 2, savedSeconds: 8, runningBefore: 40, runningAfter: 32, soloNotesLost: 0 },
      rest: { beforeSeconds: 16, afterSeconds: 8, nextEntry: { text: "B", isLetter: true } },
    });
    const [later] = [weighForDesk(inTime, [], { from: at(6), to: at(7) })];
    expect(later.rest?.nextEntry).toEqual({ text: "bar 10", isLetter: false });
  });
});

test("what was asked for lately is computed once; the one used longest ago goes first", () => {
  const computed: string[] = [];
  const lately = keepLately<string>(2);
  const ask = (key: string) => lately(key, () => computed[computed.push(key) - 1] ?? key);
  for (const key of ["a", "b", "a", "c", "a", "b"]) ask(key);
  expect(computed).toEqual(["a", "b", "c", "b"]);
});
