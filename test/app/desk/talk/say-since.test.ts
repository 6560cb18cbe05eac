import { describe, expect, test } from "vitest";
import { listSince } from "@/app/(desk)/pieces/[pieceId]/_components/say-since";
import type { CommentRecord } from "@/lib/room/comment-record";
import type { RoomChange } from "@/lib/room/history/room-change";
import type { RoomRecords } from "@/lib/room/room-keys";
import { bars, people } from "./people-and-bars";

const place = (barIndex: number) => ({ barIndex, offset: "0" });
let sequence = 0;
const base = () => ({ sequence: ++sequence, epoch: 1, at: "2026-02-22T10:00:00.000Z", isOvertaken: false });

function record(id: string, change: Partial<CommentRecord> = {}, [first, last] = [3, 4]): CommentRecord {
  return {
    ...{ id, authorId: "m", createdAt: "2026-02-22T10:00:00.000Z", text: "Softer." },
    about: { kind: "span", from: place(first - 1), to: place(last) },
    ...{ replyTo: null, deletedAt: null, print: false },
    ...change,
  };
}
const said = (before: CommentRecord | null, after: CommentRecord, userId = "m"): RoomChange => ({
  ...base(),
  ...{ map: "comments", key: after.id, userId, before, after },
});
const pencil = (
  id: string,
  cutId: string,
  to: number,
  over: string[] = [],
  isRubbedOut = false,
): RoomChange => ({
  ...base(),
  ...{ map: "pencilledCuts", key: id, userId: "m", before: null },
  after: {
    ...{ id, cutId, authorId: "m", createdAt: "2026-02-22T10:00:00.000Z", over, isRubbedOut },
    ...{ from: place(8), to: place(to) },
  },
});
const done = (what: string, about: unknown, userId: string | null = "m") => ({
  ...{ at: "2026-02-22T10:00:00.000Z", userId, what, about },
});

const cue = (
  key: string,
  before: RoomRecords["cues"] | null,
  text: string,
  deletedAt: string | null = null,
): RoomChange => ({
  ...base(),
  ...{ map: "cues", key, userId: "m", before },
  after: { id: key, authorId: "m", at: place(2), text, deletedAt },
});

const cuts = [{ id: "c2", number: 2 }] as never;
const texts = (room: RoomChange[], deeds: ReturnType<typeof done>[] = []) =>
  listSince({ room, done: deeds }, { bars, people, cuts }).map(({ userId, items }) => [
    userId,
    items.map(({ text }) => text),
  ]);

describe("cues", () => {
  const gone = "2026-02-22T11:00:00.000Z";
  const before = { id: "k", authorId: "m", at: place(2), text: "Fl.", deletedAt: null };
  test.each<[string, RoomChange[], string[]]>([
    [
      "written and reworded",
      [cue("k", null, "Fl."), cue("k", before, "Ob.")],
      ["wrote the cue “Ob.” (bar 3)"],
    ],
    ["changed", [cue("k", before, "Ob.")], ["changed to the cue “Ob.” (bar 3)"]],
    ["taken off", [cue("k", before, "Fl.", gone)], ["took off the cue “Fl.” (bar 3)"]],
  ])("%s", (_name, room, items) => {
    expect(texts(room)).toEqual([["m", items]]);
  });

  test("what came and went again is no news", () => {
    expect(texts([cue("k", null, "Fl."), cue("k", before, "Fl.", gone)])).toEqual([]);
  });
});

describe("comments", () => {
  test("which their author wants printed", () => {
    expect(texts([said(record("a"), record("a", { print: true }))])).toEqual([
      ["m", ["wants in the edition a comment (bars 3–4)"]],
    ]);
    expect(texts([said(record("a", { print: true }), record("a"))])).toEqual([
      ["m", ["no longer wants in the edition a comment (bars 3–4)"]],
    ]);
  });

  test("are counted with their bars, in the order of the page", () => {
    const room = [
      said(null, record("a", {}, [12, 14])),
      said(null, record("b", {}, [3, 3])),
      said(null, record("c", { about: { kind: "proposal", proposalId: "c2" } })),
    ];
    expect(texts(room)).toEqual([["m", ["wrote 2 comments (bars 3, 12–14)", "wrote a comment about cut 2"]]]);
  });

  test("what came and went again is no news", () => {
    const gone = { deletedAt: "2026-02-22T11:00:00.000Z" };
    expect(texts([said(null, record("a")), said(record("a"), record("a", gone))])).toEqual([]);
    expect(
      texts([said(record("a"), record("a", { text: "x" })), said(record("a", { text: "x" }), record("a"))]),
    ).toEqual([]);
  });

  test("rewording, deleting and bringing back are told apart", () => {
    const gone = { deletedAt: "2026-02-22T11:00:00.000Z" };
    const room = [
      said(record("a"), record("a", { text: "Louder." })),
      said(record("b"), record("b", gone)),
      said(record("c", gone), record("c")),
    ];
    expect(texts(room)).toEqual([
      [
        "m",
        [
          "reworded a comment (bars 3–4)",
          "deleted a comment (bars 3–4)",
          "brought back a comment (bars 3–4)",
        ],
      ],
    ]);
  });
});

test("of a pencilled cut only what became of it is told", () => {
  expect(texts([pencil("v1", "x", 10)])).toEqual([["m", ["pencilled in a cut, bars 9–10"]]]);
  expect(texts([pencil("v1", "x", 10), pencil("v2", "x", 12, ["v1"])])).toEqual([
    ["m", ["moved a cut in pencil to bars 9–12"]],
  ]);
  expect(texts([pencil("v2", "x", 12, ["v1"]), pencil("v3", "x", 12, ["v2"], true)])).toEqual([
    ["m", ["rubbed out the pencilled cut bars 9–12"]],
  ]);
});

test("what was overtaken changed nothing", () => {
  expect(texts([{ ...said(null, record("a")), isOvertaken: true }])).toEqual([]);
});

test("deeds outside the room, each once, by who did them; nobody's come last as they came", () => {
  const deeds = [
    done("cut agreed", { proposalId: "c2", number: 2, termsHash: "h" }),
    done("limit set", { limitSeconds: 300 }, "n"),
    done("limit set", { limitSeconds: 310 }, "n"),
    done("edition frozen", { number: 3 }, null),
    done("invitation made", {}),
  ];
  expect(texts([], deeds)).toEqual([
    ["m", ["agreed to cut 2"]],
    ["n", ["set the time limit"]],
    [null, ["froze edition № 3 with the second yes"]],
  ]);
});

test("of a needed rest the last deed is told, with what it is for and its bars", () => {
  const terms = {
    ...{ sourceHash: "a".repeat(64), why: "lip", needs: { seconds: 25 } },
    ...{ from: place(8), to: place(16) },
  };
  const deed = (what: string, needId = "n1") => done(`rest need ${what}`, { needId, terms });
  expect(texts([], [deed("noted"), deed("noted", "n2"), deed("released")])).toEqual([
    ["m", ["let a needed rest go: lip, bars 9–16", "noted a needed rest: lip, bars 9–16"]],
  ]);
});

test("rewrites that were told, asked and answered, each with the way to it", () => {
  const deeds = [
    done("rewrite told", { rewriteId: "r1", number: 1, termsHash: "h" }),
    done("rewrite proposed", { rewriteId: "r2", number: 2, proposalId: "p2" }),
    done("rewrite agreed", { proposalId: "p3", number: 3 }, "n"),
    done("hint written", { instrument: "Cor." }, "n"),
  ];
  const since = listSince({ room: [], done: deeds }, { bars, people, cuts });
  expect(since.map(({ items }) => items.map(({ text, place: where }) => [text, where]))).toEqual([
    [
      ["plays something else than the print: rewrite 1", { kind: "rewrite", rewriteId: "r1" }],
      ["proposed rewrite 2", { kind: "rewrite", rewriteId: "r2" }],
    ],
    [
      ["agreed to rewrite 3", { kind: "screen", path: "hands" }],
      ["wrote how to sound like an instrument", { kind: "screen", path: "hands" }],
    ],
  ]);
});

test("each leads to its place", () => {
  const room = [said(null, record("a", {}, [12, 14])), pencil("v1", "x", 10)];
  const deeds = [
    done("cut declined", { proposalId: "c2", number: 2 }),
    done("edition approved", { number: 1 }),
  ];
  const places = listSince({ room, done: deeds }, { bars, people, cuts })[0]?.items.map((item) => item.place);
  expect(places).toEqual([
    { kind: "comments", ids: ["a"], bar: 11 },
    { kind: "bar", bar: 8 },
    { kind: "cut", cutId: "c2" },
    { kind: "screen", path: "editions" },
  ]);
});
