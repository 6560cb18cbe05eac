import { describe, expect, test } from "vitest";
import type { SettingsBar } from "@/app/_data/read-piece-settings";
import { draftTempo, readDraft } from "@/app/(desk)/pieces/[pieceId]/settings/_components/tempo-draft";
import { printedTempo, type TempoTerms } from "@/lib/edition/tempo-terms";

const bar = (label: string, beatQuarters: number): SettingsBar => ({
  ...{ label, beatQuarters, length: "3", beats: ["0"], solo: "" },
});
/** The second bar is in 6/8: its beat is a dotted quarter. */
const bars = [bar("1", 1), bar("2", 1.5), bar("3", 1)];
const place = (barIndex: number) => ({ barIndex, offset: "0" });

const decided: TempoTerms = {
  ...printedTempo,
  tempi: [{ at: place(1), quartersPerMinute: 99 }],
  timings: [{ from: place(0), to: place(2), seconds: 65 }],
};

describe("the duo's tempi in their fields", () => {
  test("numbers are beats a minute of their bar, and come back as they were", () => {
    const draft = draftTempo(decided, [place(0), place(1)], bars);
    expect(draft.tempi.map(({ beats }) => beats)).toEqual(["", "66"]);
    expect(draft.timings[0]?.clock).toBe("1:05");
    expect(readDraft(draft, bars)).toEqual({ settings: decided });
  });

  test("an empty field is no tempo of one's own; a decimal comma is read", () => {
    const draft = { ...draftTempo(printedTempo, [place(0)], bars), fermataFactor: "1,5", ritardandoTo: "80" };
    expect(readDraft(draft, bars)).toEqual({
      settings: { ...printedTempo, fermataFactor: 1.5, ritardandoTo: 0.8 },
    });
  });

  test.each([
    [{ tempi: [{ at: place(2), beats: "fast" }] }, "The tempo at bar 3 is no number of beats a minute."],
    [
      { timings: [{ from: place(1), to: place(2), clock: "soon" }] },
      "Write the time from bar 2 as minutes and seconds: 1:05.",
    ],
    [{ fermataFactor: "" }, "The fermata’s length is no number. 1.75 is one and three quarters."],
    [{ ritardandoTo: "-" }, "The ritardando’s end is no number of per cent."],
  ])("what cannot be read is said: %j", (change, sentence) => {
    expect(readDraft({ ...draftTempo(printedTempo, [], bars), ...change }, bars)).toEqual({ sentence });
  });
});
