import { describe, expect, test } from "vitest";
import {
  fidelityRows,
  findHeardChange,
} from "@/app/(desk)/pieces/[pieceId]/hands/_components/fidelity-words";
import {
  paces,
  readHandsAddress,
  writeHandsAddress,
} from "@/app/(desk)/pieces/[pieceId]/hands/_components/hands-address";
import {
  findKeyFigure,
  keyRange,
  sayKeyFigure,
} from "@/app/(desk)/pieces/[pieceId]/hands/_components/key-figure";
import { layKeys, sayKey } from "@/app/(desk)/pieces/[pieceId]/hands/_components/key-layout";
import { nameBeat } from "@/app/(desk)/pieces/[pieceId]/hands/_components/name-beat";
import {
  comfortableBeats,
  shortInterval,
} from "@/app/(desk)/pieces/[pieceId]/hands/_components/passage-words";
import {
  leapWords,
  reachesToChoose,
  sayLeaps,
  withReach,
} from "@/app/(desk)/pieces/[pieceId]/hands/_components/read-profile";
import type { RewriteEvent, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { usualHands } from "@/lib/hands/hands-profile";
import type { Fidelity } from "@/lib/rewrites/fidelity";
import { quarters } from "@/lib/score/quarters";

const whole: Fidelity = {
  ...{ bass: { kept: 16, of: 16 }, topLine: { kept: 16, of: 16 }, harmony: { kept: 12, of: 12 } },
  ...{ accents: { kept: 2, of: 2 }, rhythm: { kept: 16, of: 16 }, keys: { kept: 48, of: 48 } },
};

describe("what is still heard, in words", () => {
  test("as printed", () => {
    expect(fidelityRows(whole).map(({ words }) => words)).toEqual([
      "as printed",
      "as printed",
      "same chords",
    ]);
    expect(findHeardChange(whole, ["Fl."])).toMatchObject({
      ...{ isChanged: false, words: "the same, inner notes apart: no answer needed" },
    });
  });

  test("with how much is other, opened to the figures", () => {
    const rows = fidelityRows({
      ...whole,
      ...{ bass: { kept: 14, of: 16 }, topLine: { kept: 0, of: 16 }, keys: { kept: 40, of: 48 } },
    });
    expect(rows.map(({ words }) => words)).toEqual([
      "other at 2 of 16 places",
      "other than printed throughout",
      "same chords, 8 of 48 keys left out or moved",
    ]);
    expect(rows[0]?.figures).toBe("14 of 16 onsets of the print have the same lowest note.");
  });

  test.each<[string, Partial<Fidelity>, string[], boolean]>([
    ["a bass that moves is asked about", { bass: { kept: 15, of: 16 } }, [], true],
    ["a top line that moves is asked about", { topLine: { kept: 15, of: 16 } }, [], true],
    ["another rhythm is told", { rhythm: { kept: 8, of: 16 } }, [], false],
    ["another rhythm under a cue is asked about", { rhythm: { kept: 8, of: 16 } }, ["Cor."], true],
    ["inner notes under a cue are told", { keys: { kept: 30, of: 48 } }, ["Cor."], false],
  ])("%s", (_name, change, cues, isChanged) => {
    expect(findHeardChange({ ...whole, ...change }, cues).isChanged).toBe(isChanged);
  });
});

const event = (change: Partial<RewriteEvent>): RewriteEvent => ({
  ...{ at: { barIndex: 3, offset: "0" }, lasts: "1", staff: 1, voice: 1, tied: [], tremolo: null },
  ...{ isRolled: false, isAccented: false, pitches: [] },
  ...change,
});
const pitch = (step: "C" | "E" | "G", octave: number, alter = 0) => ({ step, alter, octave });
const terms = (events: readonly RewriteEvent[]): RewriteTerms => ({
  ...{ kind: "rewrite", sourceHash: "0".repeat(64), partId: "P2", words: "", shown: "ossia" },
  ...{ from: { barIndex: 3, offset: "0" }, to: { barIndex: 4, offset: "0" }, events: [...events] },
});
const here = { barIndex: 3, offset: quarters(1, 2) };

describe("the keys of one place", () => {
  const chord = [pitch("E", 4, -1), pitch("G", 4)];
  test("are those of the hand's staff that sound there, and how often they are struck", () => {
    const written = terms([
      event({ pitches: chord }),
      event({ at: { barIndex: 3, offset: "1" }, pitches: chord }),
      event({ staff: 2, voice: 5, lasts: "2", pitches: [pitch("C", 3)] }),
    ]);
    expect(findKeyFigure(written, here, "right")).toEqual({
      ...{ keys: chord, other: [], isRolled: false, times: 2 },
    });
    expect(findKeyFigure(written, here, "left")?.keys).toEqual([pitch("C", 3)]);
    expect(findKeyFigure(written, { barIndex: 4, offset: quarters(0) }, "left")).toBeNull();
  });

  test("of a tremolo are its two sides", () => {
    const rocked = terms([
      event({ pitches: [pitch("G", 4)], tremolo: { strokes: 3, other: chord } }),
      event({ staff: 2 }),
    ]);
    const figure = findKeyFigure(rocked, here, "right");
    expect(figure && sayKeyFigure(figure)).toEqual({ how: "rocked,", what: "G against E♭ and G" });
  });

  test("are drawn on whole octaves that hold them all", () => {
    expect(keyRange([pitch("C", 4), pitch("G", 4)])).toEqual({ from: 60, to: 83 });
    expect(keyRange([pitch("G", 2), pitch("E", 5)])).toEqual({ from: 36, to: 83 });
    const { keys, width } = layKeys(60, 83);
    expect(width).toBe(14);
    expect(keys.filter(({ isBlack }) => isBlack)).toHaveLength(10);
    expect(keys.find(({ midi }) => midi === 61)?.x).toBeCloseTo(0.71, 5);
    expect(sayKey(61)).toBe("C sharp 4");
  });
});

describe("the address of the screen", () => {
  test.each([
    ["", { bars: null, rewriteId: null, pace: 1 }],
    ["bars=111-115", { bars: { fromBar: 111, toBar: 115 }, rewriteId: null, pace: 1 }],
    ["rewrite=abc&tempo=87.5", { bars: null, rewriteId: "abc", pace: 0.875 }],
  ])("%s", (text, place) => {
    expect(readHandsAddress(new URLSearchParams(text))).toEqual(place);
    expect(writeHandsAddress(place)).toBe(text);
  });

  test.each(["bars=5-3", "bars=x", "tempo=1", "tempo=1000", "tempo=fast", "rewrite="])(
    "what it says wrongly is not there: %s",
    (text) => {
      expect(readHandsAddress(new URLSearchParams(text))).toEqual({ bars: null, rewriteId: null, pace: 1 });
    },
  );

  test("has no tempo that the slider lacks", () => {
    const { pace } = readHandsAddress(new URLSearchParams(`tempo=${100 * paces.slowest}`));
    expect(pace).toBe(paces.slowest);
  });
});

describe("figures in words", () => {
  test.each([
    [12, "octave"],
    [14, "9th"],
    [16, "10th"],
    [17, "11th"],
  ])("%i semitones: %s", (semitones, words) => {
    expect(shortInterval(semitones)).toBe(words);
  });

  test("a comfortable tempo is whole beats, never more than is comfortable", () => {
    expect(comfortableBeats(0.7, 110)).toBe(77);
    expect(comfortableBeats(0.799, 110)).toBe(87);
    expect(comfortableBeats(0, 110)).toBeNull();
    expect(comfortableBeats(Number.POSITIVE_INFINITY, 110)).toBeNull();
  });

  test("a place is named by the beat it lies in", () => {
    const bars = [
      { label: "0", beats: ["0"] },
      { label: "1", beats: ["0", "1", "2"] },
    ];
    expect(nameBeat(bars, { barIndex: 1, offset: quarters(7, 4) })).toBe("bar 1 beat 2");
    expect(nameBeat(bars, { barIndex: 0, offset: quarters(1, 2) })).toBe("bar 0 beat 1");
  });

  test("leaps have the nearest words, and every one of the words its own factor", () => {
    for (const { factor, words } of leapWords) expect(sayLeaps(factor)).toBe(words);
    expect(sayLeaps(0.93)).toBe("usual");
  });

  test("ease is never wider than what is possible, whichever is chosen", () => {
    const { left } = usualHands;
    expect(withReach(left, { comfortable: 18 })).toEqual({ comfortable: 18, possible: 18 });
    expect(withReach(left, { possible: 12 })).toEqual({ comfortable: 12, possible: 12 });
    expect(reachesToChoose(24)).toContain(24);
  });
});
