import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { toCutTerms } from "@/lib/edition/cut-terms";
import { type EditionContent, noMarks } from "@/lib/edition/edition-content";
import { findTempoFault } from "@/lib/edition/find-tempo-fault";
import { hashText } from "@/lib/edition/hash-terms";
import { playEdition } from "@/lib/edition/performed-sections";
import { takeTimings } from "@/lib/edition/take-timings";
import { printedTempo, type TempoTerms, tempoTermsSchema } from "@/lib/edition/tempo-terms";
import { at, buildScore } from "@/test/builders/build-score";

const sourceHash = hashText("a source");
const solo =
  'c5:w | [A] c5 | "rit." c5 | [B] q=90 c5 | c5 | c5:h(fermata) c5:h | [C] c5:w | c5 | [D] c5 | c5';
const score = buildScore({ metre: "4/4", tempo: 72, solo });

function edition(
  cuts: readonly (readonly [number, number])[],
  tempo: TempoTerms = printedTempo,
): EditionContent {
  const spans = cuts.map(([from, to]) => toCutTerms({ from: at(from), to: at(to) }, sourceHash));
  return { schema: 2, sourceHash, partRoles: {}, tempo, ...noMarks, cuts: spans };
}

const secondsOf = (content: EditionContent, music = score) =>
  playEdition(music, content).sections.map(({ plannedSeconds }) => plannedSeconds);

const timing = (from: number, to: number, seconds: number): TempoTerms["timings"][number] => ({
  from: { barIndex: from, offset: "0" },
  to: { barIndex: to, offset: "0" },
  seconds,
});

describe("real times as the duo's own timings", () => {
  test("a section that was taken then takes what it took; the others what they did", () => {
    const content = edition([]);
    const planned = secondsOf(content);
    const tempo = takeTimings(playEdition(score, content), new Map([[1, 10]]), printedTempo);
    const after = secondsOf({ ...content, tempo });
    expect(after[1]).toBeCloseTo(10, 3);
    for (const index of [0, 2, 3, 4]) expect(after[index]).toBeCloseTo(planned[index] ?? 0, 9);
  });

  test("what a cut leaves out keeps its tempo", () => {
    const cut = edition([[4, 5]]);
    const tempo = takeTimings(playEdition(score, cut), new Map([[2, 20]]), printedTempo);
    expect(secondsOf({ ...cut, tempo })[2]).toBeCloseTo(20, 3);
    const open = secondsOf(edition([]))[2] ?? 0;
    const saved = open - (secondsOf(cut)[2] ?? 0);
    expect((secondsOf(edition([], tempo))[2] ?? 0) - 20).toBeCloseTo(saved, 3);
  });

  test("a repeat that was tapped twice gets the mean, and both times together what they took", () => {
    const music = buildScore({ metre: "4/4", tempo: 60, solo: "[A] c5:w |: [B] c5 | c5 :| [C] c5" });
    const content = edition([]);
    const played = playEdition(music, content);
    expect(played.sections.map(({ name }) => name)).toEqual(["A", "B", "B, second time", "C"]);
    const both = takeTimings(
      played,
      new Map([
        [1, 9],
        [2, 11],
      ]),
      printedTempo,
    );
    const after = secondsOf({ ...content, tempo: both }, music);
    expect(after[1]).toBeCloseTo(10, 3);
    expect((after[1] ?? 0) + (after[2] ?? 0)).toBeCloseTo(20, 3);
  });

  test("a timing that stood there gives way, and what is left of it keeps its length", () => {
    const before = { ...printedTempo, timings: [timing(0, 4, 40)] };
    const content = edition([], before);
    const planned = secondsOf(content);
    const tempo = takeTimings(playEdition(score, content), new Map([[1, 9]]), before);
    expect(tempo.timings).toHaveLength(3);
    const after = secondsOf({ ...content, tempo });
    expect(after[0]).toBeCloseTo(planned[0] ?? 0, 2);
    expect(after[1]).toBeCloseTo(9, 3);
    expect(after[2]).toBeCloseTo(planned[2] ?? 0, 2);
  });

  test("a timing elsewhere stays as it was written", () => {
    const before = { ...printedTempo, timings: [timing(7, 9, 7.25)] };
    const tempo = takeTimings(playEdition(score, edition([], before)), new Map([[0, 4]]), before);
    expect(tempo.timings).toContainEqual(timing(7, 9, 7.25));
  });

  test("any sections, cuts and timings: exact, in order, and terms that the tempi take", () => {
    const cut = fc.constantFrom<readonly (readonly [number, number])[]>(
      [],
      [[2, 3]],
      [[4, 5]],
      [
        [1, 2],
        [6, 7],
      ],
    );
    const old = fc.constantFrom<TempoTerms["timings"]>(
      [],
      [timing(0, 5, 33)],
      [timing(2, 4, 9), timing(4, 9, 21)],
    );
    const times = fc.array(fc.option(fc.integer({ min: 1000, max: 60_000 })), { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(cut, old, times, (cuts, timings, real) => {
        const content = edition(cuts, { ...printedTempo, timings });
        const played = playEdition(score, content);
        const taken = new Map(
          real.flatMap((ms, index) =>
            ms === null || index >= played.sections.length ? [] : [[index, ms / 1000] as const],
          ),
        );
        const tempo = takeTimings(played, taken, content.tempo);
        expect(tempoTermsSchema.parse(tempo)).toEqual(tempo);
        expect(findTempoFault(score, tempo)).toBeNull();
        const after = secondsOf({ ...content, tempo });
        const planned = played.sections.map(({ plannedSeconds }) => plannedSeconds);
        // Each timing is kept to the millisecond.
        after.forEach((seconds, index) => {
          expect(Math.abs(seconds - (taken.get(index) ?? planned[index] ?? 0))).toBeLessThan(0.005);
        });
      }),
    );
  });

  test.each([
    ["a section that is not", 9, 5],
    ["no time at all", 0, 0],
  ])("%s is refused", (_what, index, seconds) => {
    const played = playEdition(score, edition([]));
    expect(() => takeTimings(played, new Map([[index, seconds]]), printedTempo)).toThrow(RangeError);
  });
});
