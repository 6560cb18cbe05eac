import { describe, expect, test } from "vitest";
import { changeSheetOf } from "@/app/_data/editions/change-sheet-of";
import { cutSheetOf, limitOf, nextOccasion } from "@/app/_data/editions/cut-sheet-of";
import { toCutTerms } from "@/lib/edition/cut-terms";
import { hashEdition, noMarks } from "@/lib/edition/edition-content";
import { hashText } from "@/lib/edition/hash-terms";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { quarters } from "@/lib/score/quarters";
import type { EditionRecord } from "@/lib/store/editions/edition-record";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import { at, buildScore } from "@/test/builders/build-score";

// An upbeat and twenty bars of 4/4 at 60; a bar lasts four seconds. The soloist rests in bars 1–6 (opening), 10–14
// (from letter B) and from 19 to the end.
const score = buildScore({
  metre: "4/4",
  tempo: 60,
  solo: `r:q | ${repeat("R", 6)} | [A] ${repeat("c5:w", 3)} | [B] ${repeat("R", 5)} | ${repeat("c5:w", 2)} | [C] ${repeat("c5:w", 2)} | ${repeat("R", 2)}`,
  piano: `c3:q | ${repeat("c3:w", 20)}`,
});

function repeat(bar: string, count: number): string {
  return Array.from({ length: count }, () => bar).join(" | ");
}

function editionWith(...cuts: { from: ReturnType<typeof at>; to: ReturnType<typeof at> }[]): EditionRecord {
  const sourceHash = hashText("a source");
  const content = {
    ...noMarks,
    schema: 2 as const,
    sourceHash,
    partRoles: Object.fromEntries(score.parts.map(({ id, role }) => [id, role])),
    cuts: cuts.map((span) => toCutTerms(span, sourceHash)),
    tempo: printedTempo,
  };
  const hash = hashEdition(content);
  return {
    number: 3,
    content,
    cutNumbers: cuts.map((_cut, index) => index + 4),
    hash,
    previousHash: null,
    rendererVersion: null,
    frozenAt: new Date(),
    approvals: [],
  };
}

const span = (from: ReturnType<typeof at>, to: ReturnType<typeof at>) => ({ from, to });
const sheetOf = (...cuts: Parameters<typeof editionWith>) => cutSheetOf(score, editionWith(...cuts), 16);

describe("a cut on the sheet", () => {
  test.each([
    ["in the opening", span(at(3), at(6)), "opening"],
    ["between bars of a tutti", span(at(11, "2"), at(13, "1")), "interlude"],
    ["to the very end", span(at(20), at(20, "4")), "closing"],
    ["where the soloist plays", span(at(16), at(17)), null],
    ["from a tutti into the solo", span(at(13), at(16)), null],
  ])("%s", (_what, cut, tutti) => expect(sheetOf(cut).cuts).toMatchObject([{ number: 4, span: cut, tutti }]));
});

describe("the sheet", () => {
  test("counts bars without the upbeat and keeps the numbers of the cuts", () => {
    const sheet = sheetOf(span(at(2), at(5)), span(at(11), at(13)));
    expect(sheet).toMatchObject({ barCount: 20, playedBarCount: 15 });
    expect(sheet.cuts.map(({ number, barCount, savedSeconds }) => [number, barCount, savedSeconds])).toEqual([
      [4, 3, 12],
      [5, 2, 8],
    ]);
    expect(sheet.strip.cuts).toEqual([
      { number: 4, startSeconds: 5, endSeconds: 17 },
      { number: 5, startSeconds: 41, endSeconds: 49 },
    ]);
  });

  test("runs as long as the whole less its cuts", () => {
    const sheet = sheetOf(span(at(2), at(5)));
    // A quarter and twenty bars at 60: 81 seconds.
    expect(sheet.strip.totalSeconds).toBe(81);
    expect(sheet.runningSeconds).toBe(69);
    expect(quarters(81).num).toBe(sheet.strip.totalSeconds);
  });
});

describe("what the sheet is for", () => {
  const occasion = (on: string, changes: Partial<PerformanceRecord> = {}) =>
    ({
      name: `On ${on}`,
      kind: "jury",
      on,
      editionNumber: 3,
      realSeconds: null,
      limitSeconds: null,
      ...changes,
    }) as PerformanceRecord;
  const piece = { limitSeconds: 540 } as PieceRecord;
  const today = "2026-03-14";

  test("is the next occasion of this edition that is still to come, with its own limit", () => {
    const all = [
      occasion("2026-03-01"),
      occasion("2026-04-11", { limitSeconds: 480 }),
      occasion("2026-05-02"),
      occasion("2026-03-20", { editionNumber: 2 }),
      occasion("2026-03-15", { realSeconds: 500 }),
    ];
    expect(nextOccasion(all, 3, today)).toEqual({ name: "On 2026-04-11", round: null, on: "2026-04-11" });
    expect(limitOf(piece, all, 3, today)).toBe(480);
  });

  test("is nothing when nothing is planned; then the piece’s own limit counts", () => {
    expect(nextOccasion([occasion("2026-03-01")], 3, today)).toBeNull();
    expect(limitOf(piece, [], 3, today)).toBe(540);
  });
});

describe("the sheet of what changed", () => {
  const first = editionWith(span(at(2), at(5)));
  const second = { ...editionWith(span(at(2), at(6)), span(at(11), at(13))), number: 4 };
  const changes = (earlier: EditionRecord | null, later: EditionRecord) =>
    changeSheetOf(score, earlier, later, 16);

  test("says each difference once, with how much longer it makes the later edition", () => {
    const { sides, sections } = changes(first, second);
    const cuts = sections.find(({ title }) => title === "Cuts")?.lines ?? [];
    // A bar lasts four seconds: one more in the first cut, two in the second.
    expect(cuts.map(({ secondsLonger }) => secondsLonger)).toEqual([-4, -8]);
    expect(sections.filter(({ lines }) => lines.length > 0)).toHaveLength(1);
    expect(sides?.earlier).toMatchObject({ name: "Edition № 3", runningSeconds: 69, playedBarCount: 17 });
    expect(sides?.later).toMatchObject({ name: "Edition № 4", runningSeconds: 57, playedBarCount: 14 });
    expect(sides?.later.strip.cuts).toHaveLength(2);
  });

  test("of an edition with itself is empty", () => {
    expect(changes(first, first).sections.flatMap(({ lines }) => lines)).toEqual([]);
  });

  test("compares the first edition with the print", () => {
    const { sides } = changes(null, first);
    expect(sides?.earlier).toMatchObject({
      name: "As it is printed",
      runningSeconds: 81,
      playedBarCount: 20,
    });
  });

  test("lays nothing side by side when the music is another file", () => {
    const other = { ...second, content: { ...second.content, sourceHash: hashText("another") } };
    const { sides, sections } = changes(first, other);
    expect(sides).toBeNull();
    expect(sections.find(({ title }) => title === "The music")?.lines).toHaveLength(1);
  });
});
