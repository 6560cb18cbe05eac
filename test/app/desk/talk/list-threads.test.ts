import { expect, test } from "vitest";
import { listThreads } from "@/app/(desk)/pieces/[pieceId]/_talk/list-threads";
import { comment } from "./people-and-bars";

const gone = { deletedAt: "2026-02-23T10:00:00.000Z" };
const list = (...comments: ReturnType<typeof comment>[]) =>
  listThreads(comments, "n").map((thread) => [thread.comment.id, thread.replies.map(({ id }) => id)]);

test("threads stand in the order of the page, answers under what they answer", () => {
  const threads = list(
    comment("late", {}, [9, 9]),
    comment("first", {}, [2, 5]),
    comment("answer", { replyTo: "late", createdAt: "2026-02-22T12:00:00.000Z" }, [9, 9]),
    comment("second", { createdAt: "2026-02-22T11:00:00.000Z" }, [2, 2]),
    comment("cut", { about: { kind: "proposal", proposalId: "c" } }),
  );
  expect(threads).toEqual([
    ["first", []],
    ["second", []],
    ["late", ["answer"]],
  ]);
});

test("of deleted ones, one's own and those with answers stay", () => {
  expect(list(comment("mine", gone), comment("theirs", { ...gone, authorId: "m" }))).toEqual([["mine", []]]);
  const answered = [
    comment("theirs", { ...gone, authorId: "m" }),
    comment("answer", { replyTo: "theirs", authorId: "d" }),
  ];
  expect(list(...answered)).toEqual([["theirs", ["answer"]]]);
  const allGone = answered.map((one) => ({ ...one, ...gone }));
  expect(list(...allGone)).toEqual([]);
});
