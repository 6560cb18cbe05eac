import { expect, test } from "vitest";
import type { Comment } from "@/lib/room/comment";
import { findMentions } from "@/lib/room/find-mentions";
import { unreadComments } from "@/lib/room/unread-comments";

const people = [
  { userId: "nerys", name: "Nerys Quill" },
  { userId: "matthis", name: "Matthis Orban" },
  { userId: "anna", name: "Anna-Lisa Dorn" },
  { userId: "jo1", name: "Jo Hale" },
  { userId: "jo2", name: "Jo  Hale-Brandt" },
  { userId: "zoe", name: "Zo\u00eb" },
];

test.each([
  ["@Nerys, wait for me", ["nerys"]],
  ["please, @nerys quill!", ["nerys"]],
  ["(@NERYS)", ["nerys"]],
  ["@Nerys’s pedal and @Matthis: softer", ["nerys", "matthis"]],
  ["@Matthis and @Nerys and @Matthis Orban again", ["matthis", "nerys"]],
  ["@Nerys\n@Matthis", ["nerys", "matthis"]],
  ["ask @Nerys.", ["nerys"]],
  ["@Nerys Orban", ["nerys"]],
  ["Nerys Quill", []],
  ["@Neryssa", []],
  ["@Nery", []],
  ["@ Nerys", []],
  ["write to nerys@nerys.example", []],
  ["write to a.b@matthis", []],
  ["@nerys.quill@example.org", []],
  ["@nerys@example.org", []],
  ["x@Nerys", []],
  ["@@Nerys", ["nerys"]],
  ["@Anna-Lisa", ["anna"]],
  ["@Anna", []],
  ["@Jo", []],
  ["@Jo Hale has it", ["jo1"]],
  ["@Jo Hale-Brandt has it", ["jo2"]],
  ["@jo   hale-brandt", ["jo2"]],
  ["@Zoe\u0308", ["zoe"]],
  ["@Zoe", []],
  ["", []],
])("“%s” mentions %j", (text, mentioned) => {
  expect(findMentions(text, people)).toEqual(mentioned);
});

test("two people of one first name are each found by their whole name", () => {
  const two = [
    { userId: "a", name: "Nerys" },
    { userId: "b", name: "Nerys Quill" },
  ];
  expect(findMentions("@Nerys", two)).toEqual(["a"]);
  expect(findMentions("@Nerys Quill", two)).toEqual(["b"]);
});

test("what is unread was written by somebody else, stands and was not seen", () => {
  const rest = {
    createdAt: "2026-11-25T08:00:00.000Z",
    text: "x",
    replyTo: null,
    resolvedBy: null,
    reopenedBy: null,
  };
  const about = { kind: "proposal" as const, proposalId: "p" };
  const comment = (id: string, authorId: string, deletedAt: string | null = null): Comment => ({
    ...{ ...rest, id, authorId, about, deletedAt, editedAt: null, print: false },
  });
  const comments = [
    comment("mine", "nerys"),
    comment("seen", "matthis"),
    comment("new", "matthis"),
    comment("deleted", "matthis", "2026-11-25T08:00:00.000Z"),
  ];
  expect(unreadComments(comments, new Set(["seen"]), "nerys").map(({ id }) => id)).toEqual(["new"]);
});
