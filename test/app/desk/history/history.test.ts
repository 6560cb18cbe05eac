import { expect, test } from "vitest";
import type { HistoryRow } from "@/app/_data/desk/read-history";
import { groupByDay, historyAddress } from "@/app/(desk)/pieces/[pieceId]/history/_components/history-words";
import { listFormer } from "@/app/(desk)/pieces/[pieceId]/history/_components/list-former";
import { sayLeftToOthers, sayWrite } from "@/app/(desk)/pieces/[pieceId]/history/_components/say-write";
import type { RoomRecordsAt } from "@/lib/room/history/room-records-at";
import type { RoomWrite } from "@/lib/room/room-write";
import { bars, people } from "../talk/people-and-bars";

const at = "2026-02-22T10:00:00.000Z";
const place = (barIndex: number) => ({ barIndex, offset: "0" });
const span = (first: number, last: number) => ({
  kind: "span" as const,
  from: place(first - 1),
  to: place(last),
});
const comment = (id: string, change = {}) => ({
  ...{
    id,
    authorId: "n",
    createdAt: at,
    text: `says ${id}`,
    about: span(3, 4),
    replyTo: null,
    deletedAt: null,
  },
  ...{ print: false as const },
  ...change,
});
const version = (id: string, cutId: string, over: string[], isRubbedOut = false, authorId = "n") => ({
  ...{ id, cutId, authorId, createdAt: at, from: place(8), to: place(12), over, isRubbedOut },
});
const cuts = [{ id: "c2", number: 2 }];

const records: RoomRecordsAt = {
  comments: [
    comment("late", { about: span(9, 9) }),
    comment("answer", { replyTo: "early", createdAt: "2026-02-23T10:00:00.000Z" }),
    comment("early"),
    comment("gone", { deletedAt: at }),
    comment("cut", { about: { kind: "proposal", proposalId: "c2" } }),
  ],
  resolutions: [{ commentId: "late", byId: "m", at, isResolved: true }],
  breaths: [
    { id: "b2", authorId: "m", at: place(7), deletedAt: null },
    { id: "b1", authorId: "m", at: place(2), deletedAt: null },
    { id: "b0", authorId: "m", at: place(1), deletedAt: at },
  ],
  cues: [
    { id: "k2", authorId: "n", at: place(7), text: "Fl.", deletedAt: null },
    { id: "k1", authorId: "n", at: place(2), text: "Ob. solo", deletedAt: null },
    { id: "k0", authorId: "n", at: place(1), text: "Cor.", deletedAt: at },
  ],
  pencilledCuts: [
    version("v1", "x", []),
    version("v2", "x", ["v1"], false, "m"),
    version("w1", "y", []),
    version("w2", "y", ["w1"], true),
  ],
};

test("a former room in the order of the page, without what was gone then", () => {
  const { comments, breaths, cues: written, pencilled } = listFormer(records, { bars, cuts });
  expect(written.map(({ place: where, text }) => [where, text])).toEqual([
    ["Bar 3", "Ob. solo"],
    ["Bar 8", "Fl."],
  ]);
  expect(comments.map(({ of, place: where, remark }) => [of.key, where, remark])).toEqual([
    ["early", "Bars 3–4", null],
    ["answer", "Bars 3–4", null],
    ["late", "Bar 9", "resolved"],
    ["cut", "Cut 2", null],
  ]);
  expect(breaths.map((one) => one.place)).toEqual(["Bar 3", "Bar 8"]);
  expect(pencilled.map(({ of, userId }) => [of.key, userId])).toEqual([["x", "m"]]);
});

test("what will be written is said in words", () => {
  const say = (write: object) => sayWrite(write as RoomWrite, { bars, cuts }, records);
  expect(say({ map: "comments", key: "early", record: comment("early") })).toBe(
    "Your comment on bars 3–4 stands and says “says early”",
  );
  expect(
    say({
      map: "comments",
      key: "cut",
      record: comment("cut", { about: records.comments[4]?.about, deletedAt: at }),
    }),
  ).toBe("Your comment on cut 2 is deleted: “says cut”");
  expect(say({ map: "resolutions", key: "late", record: { isResolved: true } })).toBe(
    "The comment “says late” is resolved, in your name",
  );
  expect(say({ map: "pencilledCuts", key: "v", record: version("v", "x", [], true) })).toBe(
    "The pencilled cut bars 9–12 is rubbed out",
  );
  expect(say({ map: "breaths", key: "b1", record: records.breaths[1] })).toBe("Your breath stands at bar 3");
});

test("what is left to others is counted by person and kind", () => {
  const left = [
    { map: "comments" as const, key: "a", userId: "m" },
    { map: "comments" as const, key: "b", userId: "m" },
    { map: "breaths" as const, key: "c", userId: "m" },
    { map: "comments" as const, key: "d", userId: "d" },
  ];
  expect(sayLeftToOthers(left, { people })).toEqual([
    "2 comments and 1 breath of Matthis’s: only Matthis can bring them back",
    "1 comment of Dagny’s: only Dagny can bring it back",
  ]);
});

test("rows are grouped by the reader's own days", () => {
  const row = (sequence: number, iso: string) => ({ sequence, at: iso }) as HistoryRow;
  const rows = [
    row(3, "2026-11-26T09:00:00.000Z"),
    row(2, "2026-11-25T23:30:00.000Z"),
    row(1, "2026-11-24T09:00:00.000Z"),
  ];
  const now = new Date("2026-11-26T10:00:00.000Z");
  const days = (zone: string) => groupByDay(rows, now, zone).map((day) => [day.day, day.rows.length]);
  expect(days("UTC")).toEqual([
    ["Today", 1],
    ["Wed", 1],
    ["Tue", 1],
  ]);
  expect(days("Europe/Berlin")).toEqual([
    ["Today", 2],
    ["Tue", 1],
  ]);
});

test("filters and moments have addresses", () => {
  expect(historyAddress("p", { userId: null, map: null })).toBe("/pieces/p/history");
  expect(historyAddress("p", { userId: "n", map: "breaths" }, { at: 7 })).toBe(
    "/pieces/p/history?by=n&kind=breaths&at=7",
  );
});
