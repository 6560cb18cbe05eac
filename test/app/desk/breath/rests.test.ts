import { describe, expect, test } from "vitest";
import type { DeskCut } from "@/app/_data/desk/desk";
import type { BreathNeed } from "@/app/_data/desk/read-breath";
import {
  airOnStrip,
  wishesOnStrip,
  writtenClock,
} from "@/app/(desk)/pieces/[pieceId]/breath/_components/air-on-strip";
import {
  askBreath,
  cutsWith,
  livingNeeds,
} from "@/app/(desk)/pieces/[pieceId]/breath/_components/breath-question";
import { sumBreath } from "@/app/(desk)/pieces/[pieceId]/breath/_components/breath-totals";
import { listenAt } from "@/app/(desk)/pieces/[pieceId]/breath/_components/listen-at";
import { nameEntry } from "@/app/(desk)/pieces/[pieceId]/breath/_components/name-entry";
import { readAmount } from "@/app/(desk)/pieces/[pieceId]/breath/_components/read-amount";
import { readNumbers, writeNumbers } from "@/app/(desk)/pieces/[pieceId]/breath/_components/read-numbers";
import { findRestWords, rowBefore } from "@/app/(desk)/pieces/[pieceId]/breath/_components/rest-places";
import {
  layRestRows,
  looseNeeds,
  mostLost,
} from "@/app/(desk)/pieces/[pieceId]/breath/_components/rest-rows";
import { sayAbout, sayAmount } from "@/app/(desk)/pieces/[pieceId]/breath/_components/say-breath";
import { sayRest, sayShort, sayWanted } from "@/app/(desk)/pieces/[pieceId]/breath/_components/say-rest";
import { stripKey } from "@/app/(desk)/pieces/[pieceId]/breath/_components/strip-key";
import { findNewBreaths } from "@/app/(desk)/pieces/[pieceId]/breath/_components/use-new-breaths";
import { breathe } from "@/lib/study/breathe";
import { studyScore } from "@/lib/study/open-study";
import { at, buildScore } from "../../../builders/build-score";

/** 4/4 at one quarter a second. Rests of six bars before bar 8 and of four before bar 13. */
const score = buildScore({
  tempo: 60,
  solo: "c5:w | R*6 | c5:w | R*4 | c5:w | R*2",
  piano: "c3:w | R*6 | c3:w | R*4 | c3:w | R*2",
});
const study = studyScore(score, {
  tempo: { tempi: [], timings: [], fermataFactor: 1.75, ritardandoTo: 0.75 },
  longTuttiBars: 16,
});
const desk = {
  bars: score.bars.map(({ label }) => ({ label, length: "4", beats: ["0", "1", "2", "3"], solo: "" })),
  strip: {
    ...{ totalSeconds: 60, soloName: "Flute", tempi: [], solo: [], tuttis: [], cuts: [], breaths: [] },
    ...{ notes: [], pencils: [], letters: [{ at: 28, text: "B" }] },
    bars: score.bars.map(({ index, label }) => ({
      barIndex: index,
      label,
      from: index * 4,
      to: index * 4 + 4,
    })),
  },
};

function cut(number: number, state: DeskCut["state"], first: number, end: number, isDrawn = true): DeskCut {
  const place = (barIndex: number) => ({ barIndex, offset: "0" });
  return {
    ...{ id: `cut ${number} ${state}`, number, state, proposedBy: "m", reason: "", termsHash: "", name: "" },
    ...{ createdAt: "2026-02-22T10:00:00.000Z", from: place(first), to: place(end) },
    ...{ firstBar: first, lastBar: end - 1, gaps: [], answers: [], instead: null, frozenIn: [] },
    ...{ isStale: false, waitsForMe: false, why: null },
    weight: isDrawn
      ? {
          ...{ barCount: end - first, savedSeconds: 0, runningBefore: 0, runningAfter: 0 },
          ...{ rest: null, soloNotesLost: 0 },
        }
      : null,
  };
}

function need(id: string, change: Partial<BreathNeed> = {}): BreathNeed {
  return {
    ...{ id, from: { barIndex: 1, offset: "0" }, to: { barIndex: 7, offset: "0" }, why: "lip" },
    ...{ needs: { seconds: 20 }, notedBy: "m", notedAt: "2026-02-22T10:00:00.000Z" },
    ...{ releasedBy: null, releasedAt: null, isRemoved: false, isStale: false },
    ...change,
  };
}

function lay(cuts: readonly DeskCut[], needs: readonly BreathNeed[]) {
  const answer = (made: readonly DeskCut[]) =>
    breathe(study, askBreath(desk, { needs, preferences: null }, [], made));
  const open = cuts.filter(({ state }) => state === "open");
  const madeCuts = cutsWith({ cuts }, []);
  return layRestRows({
    ...{ desk, needs: livingNeeds(needs), made: answer(madeCuts), madeCuts, openCuts: open },
    open: open.length > 0 ? answer(cutsWith({ cuts }, open)) : null,
  });
}

describe("the rest before each entry", () => {
  test("has no row for the silence after the last note, and names an entry by its letter or its bar", () => {
    const rows = lay([], []);
    expect(rows.map(({ entry, rest }) => [entry.text, rest.seconds.after])).toEqual([
      ["B", 24],
      ["bar 13", 16],
    ]);
  });

  test("shows what the agreed cuts left and what the open ones would, and which take it", () => {
    const [first, second] = lay([cut(1, "agreed", 2, 4), cut(2, "open", 9, 11)], []);
    expect(first).toMatchObject({ rest: { seconds: { before: 24, after: 16 } }, openSeconds: null });
    expect(first?.takenBy.map(({ number }) => number)).toEqual([1]);
    expect(second).toMatchObject({ rest: { seconds: { before: 16, after: 16 } }, openSeconds: 8 });
    expect(second?.takenBy.map(({ number }) => number)).toEqual([2]);
  });

  test("an open cut takes the place of the agreed one of its number", () => {
    const [first] = lay([cut(1, "agreed", 2, 4), cut(1, "open", 2, 3)], []);
    expect([first?.rest.seconds.after, first?.openSeconds]).toEqual([16, 20]);
  });

  test("lists each need with what is left for it, and what is missing under the open cut", () => {
    const [first] = lay([cut(1, "open", 2, 4)], [need("a")]);
    const here = first?.needs[0];
    expect(here?.checked.verdict).toBe("kept");
    expect(here?.underOpen && sayShort(here.underOpen)).toBe("0:04 short");
  });

  test("leaves needs that were taken off or noted on another file to their own list", () => {
    const needs = [need("a"), need("gone", { isRemoved: true }), need("old", { isStale: true })];
    const rows = lay([], needs);
    expect(looseNeeds(needs, rows).map(({ id }) => id)).toEqual(["gone", "old"]);
  });

  test("tells which loses most; nothing when nothing is lost", () => {
    expect(mostLost(lay([], []))).toBeNull();
    const lost = mostLost(lay([cut(1, "agreed", 2, 3), cut(2, "open", 9, 11)], []));
    expect([lost?.row.entry.text, lost?.seconds]).toEqual(["bar 13", 8]);
  });

  test("a touch on the strip means the entry at or after it", () => {
    const rows = lay([], []);
    const entryAt = (second: number) => rows.find(({ key }) => key === rowBefore(desk, rows, second))?.entry;
    expect([0, 27, 33, 59].map((second) => entryAt(second)?.text)).toEqual(["B", "B", "bar 13", "bar 13"]);
  });

  test("stands under the many-bar rests of the part", () => {
    expect(
      findRestWords(lay([cut(1, "agreed", 2, 4), cut(2, "open", 9, 11)], [])).map(({ words }) => words),
    ).toEqual(["0:16 (0:24 as written)", "0:16 → 0:08"]);
  });
});

test("cuts that cannot be made are not asked about", () => {
  expect(cutsWith({ cuts: [cut(1, "agreed", 2, 4, false), cut(2, "declined", 2, 4)] }, [])).toEqual([]);
});

test("breaths on bars that the file does not have are not asked about", () => {
  const breaths = [at(0, 2), at(0, 5), at(99)].map((place, index) => ({
    ...{ id: `${index}`, authorId: "m", at: place },
  }));
  expect(askBreath(desk, { needs: [], preferences: null }, breaths, []).marks).toEqual([at(0, 2)]);
});

describe("on the strip", () => {
  const clock = writtenClock([
    { from: 20, to: 30 },
    { from: 8, to: 12 },
    { from: 11, to: 14 },
  ]);
  test.each([
    [5, false, 5],
    [8, true, 8],
    [8, false, 14],
    [10, false, 16],
    [14, true, 20],
    [14, false, 30],
    [20, true, 36],
  ])("second %i of the cut piece (an end: %s) stands at %i", (seconds, isEnd, written) => {
    expect(clock(seconds, isEnd)).toBeCloseTo(written, 9);
  });

  test("air is laid over what is cut, and the long is told", () => {
    const report = breathe(
      study,
      askBreath(desk, { needs: [], preferences: null }, [], [cut(1, "agreed", 2, 4)]),
    );
    if (!report.after) throw new RangeError("nothing is played");
    const after = { ...report.after, preferences: { ...report.after.preferences, comfortableSeconds: 3 } };
    expect(airOnStrip(after, [{ from: 8, to: 16 }]).stretches.slice(0, 2)).toEqual([
      { from: 0, to: 4, seconds: 4, isLong: true },
      { from: 28, to: 32, seconds: 4, isLong: true },
    ]);
    expect(sumBreath(after)).toEqual({ plays: 12, rests: 40 });
  });

  test("a wish stands before its entry, one in bars as long as they last", () => {
    const rows = lay([], [need("a"), need("b", { needs: { bars: 2 }, releasedBy: "m" })]);
    expect(wishesOnStrip(desk, rows)).toEqual([
      { id: "a", at: 28, seconds: 20, text: "20 s", isReleased: false },
      { id: "b", at: 28, seconds: 8, text: "2 bars", isReleased: true },
    ]);
  });

  test.each([
    ["ArrowRight", false, 4, 2],
    ["ArrowLeft", false, 4, 0],
    ["ArrowRight", true, 4, 7],
    ["ArrowLeft", true, 4, null],
    ["Enter", false, 4, null],
  ])("%s (shift: %s) at %i s goes to bar index %s", (key, shiftKey, second, barIndex) => {
    const event = { key, shiftKey, altKey: false, ctrlKey: false, metaKey: false };
    expect(stripKey(event, desk.strip, second)?.barIndex ?? null).toBe(barIndex);
  });
});

test("listening begins at the bar one is at, in its round of a repeat", () => {
  const bars = [0, 1, 0, 1].map((barIndex, index) => ({
    ...{ barIndex, label: `${barIndex}`, from: index * 4, to: index * 4 + 4 },
  }));
  expect(listenAt({ bars }, [], 0)).toEqual({ kind: "piece", cuts: [], from: null });
  expect(listenAt({ bars }, [], 8)).toMatchObject({ from: { barIndex: 0, pass: 2 } });
  expect(listenAt({ bars }, [], 6)).toMatchObject({ from: { barIndex: 1, pass: 1 } });
});

test("an upbeat belongs to the letter of the bar after it", () => {
  expect(nameEntry(desk, at(6, 3))).toEqual({ text: "B", isLetter: true, barIndex: 6 });
  expect(nameEntry(desk, at(6))).toEqual({ text: "bar 7", isLetter: false, barIndex: 6 });
});

test.each([
  ["20", "seconds", { seconds: 20 }],
  ["0:20", "seconds", { seconds: 20 }],
  [" 1:05 ", "seconds", { seconds: 65 }],
  ["0", "seconds", null],
  ["1:70", "seconds", null],
  ["a while", "seconds", null],
  ["4", "bars", { bars: 4 }],
  ["2,5", "bars", { bars: 2.5 }],
  ["2.3", "bars", null],
  ["501", "bars", null],
] as const)("%s in %s is read as %j", (text, unit, amount) => {
  expect(readAmount(text, unit)).toEqual(amount);
});

test.each([
  [sayAbout(4.54), "4.5 s"],
  [sayAbout(9.97), "10 s"],
  [sayAbout(18.6), "19 s"],
  [sayAmount({ seconds: 19.2 }), "0:20"],
  [sayAmount({ bars: 1 }), "1 bar"],
  [sayRest(44, 12), "0:44 (12 bars)"],
  [sayRest(4, 0), "0:04"],
  [sayWanted([{ needs: { bars: 8 } }, { needs: { seconds: 20 } }]), "8 bars and 0:20 wanted"],
])("%s", (said, words) => {
  expect(said).toBe(words);
});

describe("the soloist's numbers", () => {
  const numbers = { comfortableSeconds: 13, catchSeconds: 0.25, restPerPlayed: null, windowSeconds: 60 };
  test("are read as they were written", () => {
    expect(readNumbers(writeNumbers(numbers))).toEqual(numbers);
  });

  test.each([
    [{ comfortable: "12,5" }, { ...numbers, comfortableSeconds: 12.5 }],
    [{ comfortable: "" }, { ...numbers, comfortableSeconds: null }],
    [{ comfortable: "0" }, null],
    [{ comfortable: "long" }, null],
    [{ catch: "" }, null],
    [{ window: "1" }, null],
  ])("%j", (change, read) => {
    expect(readNumbers({ ...writeNumbers(numbers), ...change })).toEqual(read);
  });
});

describe("a breath is new", () => {
  const breaths = [{ id: "old" }, { id: "told" }, { id: "live" }];
  const since = {
    room: [
      { map: "breaths", key: "told" },
      { map: "comments", key: "old" },
    ] as never,
  };
  test.each([
    ["while nothing was heard of the room: only what one was told", null, since, ["told"]],
    ["what came while the page is open", new Set(["old", "told"]), null, ["live"]],
    ["both", new Set(["old", "told"]), since, ["told", "live"]],
  ])("%s", (_, known, told, ids) => {
    expect([...findNewBreaths(breaths, known, told)]).toEqual(ids);
  });
});
