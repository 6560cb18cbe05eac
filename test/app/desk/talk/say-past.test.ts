import { expect, test } from "vitest";
import { sayPast } from "@/app/(desk)/pieces/[pieceId]/_cuts/say-past";
import type { RoomChange } from "@/lib/room/history/room-change";
import { bars, matthis, people } from "./people-and-bars";

const desk = { bars, people, me: matthis };
const at = "2026-02-22T10:00:00.000Z";
const place = (barIndex: number) => ({ barIndex, offset: "0" });
const change = (of: object, userId: string | null = "n", isOvertaken = false): RoomChange =>
  ({ sequence: 1, epoch: 1, at, userId, key: "k", before: null, isOvertaken, ...of }) as RoomChange;
const comment = (text: string, deletedAt: string | null = null) => ({
  ...{ id: "k", authorId: "n", createdAt: at, text, replyTo: null, deletedAt, print: false },
  about: { kind: "proposal", proposalId: "c" },
});
const version = (to: number, over: string[] = [], isRubbedOut = false) => ({
  ...{ id: "v", cutId: "k", authorId: "n", createdAt: at, from: place(8), to: place(to), over, isRubbedOut },
});

test.each([
  ["a first word", change({ map: "comments", after: comment("a") }), "written by Nerys", null],
  [
    "other words",
    change({ map: "comments", before: comment("a"), after: comment("b") }),
    "reworded by Nerys",
    "a",
  ],
  [
    "a deletion",
    change({ map: "comments", before: comment("a"), after: comment("a", at) }),
    "deleted by Nerys",
    null,
  ],
  [
    "a return",
    change({ map: "comments", before: comment("a", at), after: comment("a") }),
    "brought back by Nerys",
    null,
  ],
  [
    "resolving",
    change({ map: "resolutions", after: { commentId: "k", byId: "m", at, isResolved: true } }, "m"),
    "resolved by you",
    null,
  ],
  [
    "opening again",
    change({ map: "resolutions", after: { commentId: "k", byId: "d", at, isResolved: false } }, "d"),
    "opened again by Dagny",
    null,
  ],
  [
    "a pencil mark",
    change({ map: "pencilledCuts", after: version(12) }),
    "pencilled in, bars 9–12, by Nerys",
    null,
  ],
  [
    "a move",
    change({ map: "pencilledCuts", after: version(10, ["u"]) }),
    "moved to bars 9–10 by Nerys",
    null,
  ],
  [
    "rubbing out",
    change({ map: "pencilledCuts", after: version(10, ["u"], true) }),
    "rubbed out by Nerys",
    null,
  ],
  [
    "settling",
    change({ map: "pencilledCuts", after: version(10, ["u", "w"]) }),
    "settled on bars 9–10 by Nerys",
    null,
  ],
  [
    "a breath",
    change({ map: "breaths", after: { id: "k", authorId: "m", at: place(4), deletedAt: null } }, "m"),
    "marked at bar 5 by you",
    null,
  ],
  ["the new room", change({ map: "comments", after: null }, null), "lost when the room began anew", null],
])("%s", (_name, one, words, former) => {
  expect(sayPast(one, null, desk)).toEqual({ words, former });
});

test("what follows on rubbing out is a return", () => {
  const rubbed = change({ map: "pencilledCuts", after: version(10, ["u"], true) });
  const back = change({ map: "pencilledCuts", after: version(10, ["v"]) });
  expect(sayPast(back, rubbed, desk).words).toBe("brought back, bars 9–10, by Nerys");
});

test("what was overtaken says so", () => {
  const overtaken = change({ map: "comments", before: comment("a"), after: comment("b") }, "n", true);
  expect(sayPast(overtaken, null, desk).words).toBe("reworded by Nerys, at the same time as what stands");
});
