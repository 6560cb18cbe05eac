import { describe, expect, it } from "vitest";
import { inspectScore } from "@/lib/inspect/inspect-score";
import { inspectSource } from "@/lib/inspect/inspect-source";
import { sayReport } from "@/lib/inspect/say-report";
import { buildScore } from "../../builders/build-score";

const score = buildScore({
  title: "Concertino",
  tempo: 60,
  solo: 'c5:q | R*2 | "rit." c5:w | [1. c5 :| [2. c5 ] | 3/4 R*17',
  piano: `c3:q | c3:w | c3 | c3 | [1. c3 :| [2. c3 ] | ${Array.from({ length: 17 }, () => "c3:h.").join(" | ")}`,
});

describe("the report", () => {
  const report = inspectScore({
    score,
    notices: [{ kind: "odd", sentence: "Something is odd.", partName: "Flute", barLabel: "3" }],
  });

  it("tells parts, bars, order, time, tuttis and notices as plain data", () => {
    expect(report).toMatchObject({
      title: "Concertino",
      parts: [
        { id: "P1", name: "Flute", role: "solo", staffCount: 1, noteCount: 4 },
        { id: "P2", name: "Piano", role: "reduction", staffCount: 1, noteCount: 23 },
      ],
      bars: { count: 23, firstLabel: "0", lastLabel: "22", hasPickup: true, quarters: "72" },
      performed: { order: "0–4, 0–3, 5–22", barCount: 27, quarters: "85" },
    });
    expect(report.bars.metres).toEqual([
      { barLabel: "0", metre: "4/4" },
      { barLabel: "6", metre: "3/4" },
    ]);
    expect(report.tuttis).toMatchObject([
      {
        place: "interlude",
        firstBarLabel: "1",
        lastBarLabel: "2",
        barCount: 2,
        quarters: "8",
        seconds: 8,
        isLong: false,
      },
      { place: "interlude", firstBarLabel: "1", lastBarLabel: "2" },
      {
        place: "closing",
        firstBarLabel: "6",
        lastBarLabel: "22",
        barCount: 17,
        quarters: "51",
        isLong: true,
      },
    ]);
    expect(report.assumptions).toContain(
      "Bar 3 says “rit.”: the tempo is assumed to reach 75 % of what it was.",
    );
  });

  it("reads as lines for people", () => {
    const lines = sayReport(report).split("\n");
    expect(lines).toContain("  solo      Flute, 1 staff, 4 notes");
    expect(lines).toContain("  23 (0–22, with an upbeat); 4/4, 3/4 from 6; 72 quarters");
    expect(lines).toContain("  0–4, 0–3, 5–22 (27 bars, 85 quarters)");
    expect(
      lines.some((line) => /^ {2}closing {3}bars 6–22: 17 bars, 51 quarters, 0:5\d, long$/.test(line)),
    ).toBe(true);
    expect(lines).toContain("  Something is odd. (Flute, bar 3)");
  });

  it("draws nothing on the terminal, whatever a title says", () => {
    const loud = sayReport(
      inspectScore({ score: { ...score, title: "\u001b[31mred\u0007\nnext" }, notices: [] }),
    );
    expect(loud.split("\n")[0]).toBe("[31mred next");
    expect(sayReport({ ...report, title: null })).toMatch(/^\(no title\)\n/);
  });

  it("passes the reader's problem on", () => {
    expect(inspectSource(new Uint8Array())).toMatchObject({ ok: false, problem: { kind: "empty-file" } });
  });
});
