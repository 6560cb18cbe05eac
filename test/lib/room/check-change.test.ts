import { describe, expect, test } from "vitest";
import type { BreathRecord } from "@/lib/room/breath-record";
import { checkChange } from "@/lib/room/check-change";
import type { CommentRecord } from "@/lib/room/comment-record";
import type { CueRecord } from "@/lib/room/cue-record";
import type { RecordChange } from "@/lib/room/find-changed-records";
import type { PencilledVersionRecord } from "@/lib/room/pencilled-version-record";
import type { ResolutionRecord } from "@/lib/room/resolution-record";
import type { RoomMember } from "@/lib/room/room-member";
import { coach, pianist, reader, soloist } from "@/test/lib/room/room-members";
import { versionOf } from "@/test/lib/room/room-records";

const now = new Date("2026-11-25T09:00:00.000Z");

const said: CommentRecord = {
  id: "c1",
  authorId: "ines",
  createdAt: "2026-11-25T08:00:00.000Z",
  text: "Wait for the breath",
  about: { kind: "span", from: { barIndex: 4, offset: "1/3" }, to: { barIndex: 5, offset: "0" } },
  replyTo: null,
  deletedAt: null,
  print: false,
};
const marked: BreathRecord = {
  id: "b1",
  authorId: "tobias",
  at: { barIndex: 9, offset: "3/2" },
  deletedAt: null,
};
const settled: ResolutionRecord = {
  commentId: "c1",
  byId: "mara",
  at: "2026-11-25T08:30:00.000Z",
  isResolved: true,
};

const writes = (before: unknown, fields: Partial<CommentRecord> = {}): RecordChange => {
  const after = { ...said, ...fields };
  return { map: "comments", key: "c1", before, after, isOvertaken: false };
};
const marks = (before: unknown, fields: Partial<BreathRecord> = {}): RecordChange => {
  return { map: "breaths", key: "b1", before, after: { ...marked, ...fields }, isOvertaken: false };
};
const settles = (before: unknown, fields: Partial<ResolutionRecord> = {}): RecordChange => {
  return { map: "resolutions", key: "c1", before, after: { ...settled, ...fields }, isOvertaken: false };
};

const pencilled: PencilledVersionRecord = versionOf(soloist, "v1", [9, 17]);
const pencils = (before: unknown, fields: Partial<PencilledVersionRecord> = {}): RecordChange => {
  return { map: "pencilledCuts", key: "v1", before, after: { ...pencilled, ...fields }, isOvertaken: false };
};

const heard: CueRecord = {
  ...{ id: "k1", authorId: "ines", at: { barIndex: 9, offset: "0" }, text: "Fl.", deletedAt: null },
};
const cues = (before: unknown, fields: Partial<CueRecord> = {}): RecordChange => {
  return { map: "cues", key: "k1", before, after: { ...heard, ...fields }, isOvertaken: false };
};
const onACut = { about: { kind: "proposal" as const, proposalId: "p1" } };

const yes = "may";

const cases: readonly [string, RecordChange, RoomMember, string][] = [
  ["a player writes a comment", writes(undefined), pianist, yes],
  ["a coach writes a comment", writes(undefined, { authorId: "mara" }), coach, yes],
  ["a reader writes a comment", writes(undefined, { authorId: "page" }), reader, "reads-only"],
  ["a comment in another's name", writes(undefined), soloist, "not-in-your-name"],
  ["the author changes the text", writes(said, { text: "Wait" }), pianist, yes],
  ["another changes the text", writes(said, { text: "Wait" }), soloist, "not-your-record"],
  ["another takes a comment over", writes(said, { authorId: "tobias" }), soloist, "not-your-record"],
  ["the author gives a comment away", writes(said, { authorId: "tobias" }), pianist, "not-in-your-name"],
  ["the author deletes", writes(said, { deletedAt: "2026-11-25T08:59:00.000Z" }), pianist, yes],
  ["another deletes", writes(said, { deletedAt: "2026-11-25T08:59:00.000Z" }), soloist, "not-your-record"],
  ["the author brings it back", writes({ ...said, deletedAt: "2026-11-25T08:59:00.000Z" }), pianist, yes],
  [
    "the author moves it to other bars",
    writes(said, { about: { kind: "proposal", proposalId: "p1" } }),
    pianist,
    "fixed-field-changed",
  ],
  [
    "the author dates it anew",
    writes(said, { createdAt: "2026-11-25T08:00:01.000Z" }),
    pianist,
    "fixed-field-changed",
  ],
  ["the author makes it an answer", writes(said, { replyTo: "c0" }), pianist, "fixed-field-changed"],
  [
    "a comment from the day after tomorrow",
    writes(undefined, { createdAt: "2026-11-27T08:00:00.000Z" }),
    pianist,
    "clock-ahead",
  ],
  ["a comment without words", writes(undefined, { text: " \n " }), pianist, "invalid-record"],
  ["4,000 characters", writes(undefined, { text: "o".repeat(4_000) }), pianist, yes],
  ["4,001 characters", writes(undefined, { text: "o".repeat(4_001) }), pianist, "invalid-record"],
  [
    "a span that ends before it begins",
    writes(undefined, {
      about: { kind: "span", from: { barIndex: 5, offset: "0" }, to: { barIndex: 4, offset: "3" } },
    }),
    pianist,
    "invalid-record",
  ],
  [
    "an offset that is not reduced",
    writes(undefined, {
      about: { kind: "span", from: { barIndex: 4, offset: "2/4" }, to: { barIndex: 5, offset: "0" } },
    }),
    pianist,
    "invalid-record",
  ],
  ["a field that nobody knows", writes(undefined, { colour: "red" } as never), pianist, "invalid-record"],
  ["a comment under another key", { ...writes(undefined), key: "c2" }, pianist, "invalid-record"],
  [
    "a comment away",
    { map: "comments", key: "c1", before: said, after: undefined, isOvertaken: false },
    pianist,
    "record-removed",
  ],
  ["the soloist marks a breath", marks(undefined), soloist, yes],
  ["the pianist marks one", marks(undefined, { authorId: "ines" }), pianist, yes],
  ["a coach marks one", marks(undefined, { authorId: "mara" }), coach, "role-may-not"],
  ["the soloist moves a breath", marks(marked, { at: { barIndex: 9, offset: "2" } }), soloist, yes],
  ["the pianist moves the soloist's", marks(marked, { authorId: "ines" }), pianist, "not-your-record"],
  ["a coach resolves", settles(undefined), coach, yes],
  [
    "a player reopens what the coach resolved",
    settles(settled, { byId: "ines", isResolved: false }),
    pianist,
    yes,
  ],
  ["somebody resolves in the coach's name", settles(undefined), soloist, "not-in-your-name"],
  ["the soloist pencils a cut in", pencils(undefined), soloist, yes],
  ["the pianist pencils one in", pencils(undefined, { authorId: "ines", over: ["v0"] }), pianist, yes],
  ["a coach pencils one in", pencils(undefined, { authorId: "mara" }), coach, "role-may-not"],
  ["a reader pencils one in", pencils(undefined, { authorId: "page" }), reader, "reads-only"],
  ["a pencilled cut in another's name", pencils(undefined), pianist, "not-in-your-name"],
  ["the same version once more", pencils(pencilled), soloist, yes],
  ["a version at other bars", pencils({ ...pencilled, to: pencilled.from }), soloist, "fixed-field-changed"],
  [
    "a version rubbed out in place",
    pencils(pencilled, { isRubbedOut: true }),
    soloist,
    "fixed-field-changed",
  ],
  ["another's version", pencils(pencilled, { authorId: "ines" }), pianist, "not-your-record"],
  ["a cut of nothing", pencils(undefined, { to: pencilled.from }), soloist, "invalid-record"],
  ["a version over itself", pencils(undefined, { over: ["v1"] }), soloist, "invalid-record"],
  [
    "a version over seventeen",
    pencils(undefined, { over: Array.from({ length: 17 }, (_, index) => `a${index}`) }),
    soloist,
    "invalid-record",
  ],
  [
    "a cut pencilled in the day after tomorrow",
    pencils(undefined, { createdAt: "2026-11-27T08:00:00.000Z" }),
    soloist,
    "clock-ahead",
  ],
  ["a comment with its last edit", writes(said, { editedAt: "2026-11-25T08:30:00.000Z" }), pianist, yes],
  [
    "an edit from the day after tomorrow",
    writes(said, { editedAt: "2026-11-27T08:00:00.000Z" }),
    pianist,
    "clock-ahead",
  ],
  ["the author wants a comment printed", writes(said, { print: true }), pianist, yes],
  ["another wants it printed", writes(said, { print: true }), soloist, "not-your-record"],
  ["a comment on a cut is printed", writes(undefined, { print: true, ...onACut }), pianist, "invalid-record"],
  ["2,000 printed letters", writes(said, { print: true, text: "o".repeat(2_000) }), pianist, yes],
  [
    "2,001 printed letters",
    writes(said, { print: true, text: "o".repeat(2_001) }),
    pianist,
    "invalid-record",
  ],
  [
    "letters that are two in normal form C, printed",
    writes(said, { print: true, text: "\u0958".repeat(1_001) }),
    pianist,
    "invalid-record",
  ],
  ["the pianist writes a cue", cues(undefined), pianist, yes],
  ["the soloist writes one", cues(undefined, { authorId: "tobias" }), soloist, yes],
  ["a coach writes one", cues(undefined, { authorId: "mara" }), coach, "role-may-not"],
  ["a reader writes one", cues(undefined, { authorId: "page" }), reader, "reads-only"],
  ["a cue in another's name", cues(undefined), soloist, "not-in-your-name"],
  ["its author rewords it", cues(heard, { text: "Ob. solo" }), pianist, yes],
  ["its author puts it elsewhere", cues(heard, { at: { barIndex: 10, offset: "1/2" } }), pianist, yes],
  ["another rewords it", cues(heard, { text: "Cor." }), soloist, "not-your-record"],
  ["its author takes it off", cues(heard, { deletedAt: "2026-11-25T08:59:00.000Z" }), pianist, yes],
  [
    "a cue erased",
    { map: "cues", key: "k1", before: heard, after: undefined, isOvertaken: false },
    pianist,
    "record-removed",
  ],
  [
    "a cue taken off the day after tomorrow",
    cues(heard, { deletedAt: "2026-11-27T08:00:00.000Z" }),
    pianist,
    "clock-ahead",
  ],
  ["a cue of no letters", cues(undefined, { text: " " }), pianist, "invalid-record"],
  ["a cue of 24 letters", cues(undefined, { text: "o".repeat(24) }), pianist, yes],
  ["a cue of 25 letters", cues(undefined, { text: "o".repeat(25) }), pianist, "invalid-record"],
  ["a reader resolves", settles(undefined, { byId: "page" }), reader, "reads-only"],
];

describe("who may change what in a room", () => {
  test.each(cases)("%s", (_what, change, member, expected) => {
    const verdict = checkChange(change, member, now);
    expect(verdict.ok ? yes : verdict.problem.kind).toBe(expected);
  });

  test.each([
    ["bytes", new Uint8Array([1, 2])],
    ["a date", new Date()],
    ["a text", "comment"],
    ["nothing", null],
    ["borrowed fields", Object.create(said)],
  ])("%s is no record", (_what, after) => {
    const verdict = checkChange(
      { map: "comments", key: "c1", before: undefined, after, isOvertaken: false },
      pianist,
      now,
    );
    expect(verdict.ok ? yes : verdict.problem.kind).toBe("invalid-record");
  });
});
