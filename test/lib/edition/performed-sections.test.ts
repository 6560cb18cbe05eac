import { describe, expect, test } from "vitest";
import { toCutTerms } from "@/lib/edition/cut-terms";
import { type EditionContent, noMarks } from "@/lib/edition/edition-content";
import { hashText } from "@/lib/edition/hash-terms";
import { playEdition } from "@/lib/edition/performed-sections";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { timeEdition } from "@/lib/edition/time-edition";
import { writeQuarters } from "@/lib/score/quarters";
import { at, buildScore } from "@/test/builders/build-score";

const sourceHash = hashText("a source");

function edition(...cuts: [from: number, to: number, offset?: string][]): EditionContent {
  return {
    ...{ schema: 2, sourceHash, partRoles: {}, tempo: printedTempo, ...noMarks },
    cuts: cuts.map(([from, to, offset = "0"]) =>
      toCutTerms({ from: at(from, offset), to: at(to, offset) }, sourceHash),
    ),
  };
}

/** "A 0–8 8 s": performed quarters and seconds; one quarter a second. */
function sectionsOf(solo: string, content: EditionContent): string[] {
  const score = buildScore({ metre: "4/4", tempo: 60, solo });
  return playEdition(score, content).sections.map(
    ({ name, from, to, plannedSeconds }) =>
      `${name} ${writeQuarters(from)}–${writeQuarters(to)} ${plannedSeconds} s`,
  );
}

const letters = "[A] c5:w | c5 | [B] c5 | c5 | c5 | [C] c5";

describe("sections of an edition", () => {
  test.each([
    ["from letter to letter", letters, edition(), ["A 0–8 8 s", "B 8–20 12 s", "C 20–24 4 s"]],
    [
      "what comes before the first letter is the beginning",
      "c5:w | [A] c5 | [B] c5",
      edition(),
      ["beginning 0–4 4 s", "A 4–8 4 s", "B 8–12 4 s"],
    ],
    ["a cut makes its section shorter", letters, edition([3, 5]), ["A 0–8 8 s", "B 8–12 4 s", "C 12–16 4 s"]],
    ["a letter that is cut away is none", letters, edition([1, 3]), ["A 0–12 12 s", "C 12–16 4 s"]],
    [
      "an upbeat belongs to the letter that it leads to",
      "c5:q | [A] c5:w | c5 | [B] c5",
      edition(),
      ["A 0–9 9 s", "B 9–13 4 s"],
    ],
    [
      "a cut that goes on at a letter keeps it",
      letters,
      edition([1, 2]),
      ["A 0–4 4 s", "B 4–16 12 s", "C 16–20 4 s"],
    ],
    ["a cut inside a bar", letters, edition([3, 4, "2"]), ["A 0–8 8 s", "B 8–16 8 s", "C 16–20 4 s"]],
    [
      "a letter in a repeat sounds twice",
      "[A] c5:w |: [B] c5 | c5 :| [C] c5",
      edition(),
      ["A 0–4 4 s", "B 4–12 8 s", "B, second time 12–20 8 s", "C 20–24 4 s"],
    ],
    [
      "without letters and tempo words by eights of bars, by printed numbers, cuts left out",
      Array.from({ length: 20 }, () => "c5:w").join(" | "),
      edition([4, 6]),
      ["bars 1–10 0–32 32 s", "bars 11–18 32–64 32 s", "bars 19–20 64–72 8 s"],
    ],
  ])("%s", (_what, solo, content, expected) => {
    expect(sectionsOf(solo, content)).toEqual(expected);
  });

  test("without letters by tempo words, and not by those that only change a tempo", () => {
    const score = buildScore({ metre: "4/4", solo: "c5:w | c5 | c5 | c5" });
    const tempoMarks = ["", "Andante", "rit.", "Allegro"].flatMap((words, barIndex) => {
      const onset = score.bars[barIndex]?.start;
      if (words === "" || !onset) return [];
      return [{ barIndex, onset, words, quartersPerMinute: null, source: "words" as const }];
    });
    const names = playEdition({ ...score, tempoMarks }, edition()).sections.map(({ name }) => name);
    expect(names).toEqual(["beginning", "Andante", "Allegro"]);
  });

  test("one letter alone does not divide a piece", () => {
    expect(sectionsOf("c5:w | [A] c5", edition())).toEqual(["bars 1–2 0–8 8 s"]);
  });

  test("at most sixteen where bars are counted off", () => {
    const bars = Array.from({ length: 500 }, () => "c5:w").join(" | ");
    expect(sectionsOf(bars, edition())).toHaveLength(16);
  });

  test("together they are the whole", () => {
    const score = buildScore({ metre: "4/4", tempo: 76, solo: letters });
    const content = edition([3, 5]);
    const sum = playEdition(score, content).sections.reduce((all, one) => all + one.plannedSeconds, 0);
    expect(sum).toBeCloseTo(timeEdition(score, content).seconds, 9);
  });
});
