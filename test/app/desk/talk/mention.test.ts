import { describe, expect, test } from "vitest";
import {
  findMentionBegun,
  listNameable,
  matchNames,
  putName,
  splitMentions,
} from "@/app/(desk)/pieces/[pieceId]/_talk/mention";
import { dagny, matthis, nerys, people, person } from "./people-and-bars";

describe("who can be named", () => {
  test("everybody who reads the comments, without oneself, by the first name", () => {
    const all = [...people, person("r", "Ruth Amsel", "reader"), person("x", "Ada Holm", "coach", true)];
    expect(listNameable({ people: all, me: nerys }).map(({ name }) => name)).toEqual(["Matthis", "Dagny"]);
  });

  test("a first name that two have is not enough", () => {
    const other = person("o", "Matthis Brandt", "coach");
    const names = listNameable({ people: [...people, other], me: nerys }).map(({ name }) => name);
    expect(names).toEqual(["Matthis Orban", "Dagny", "Matthis Brandt"]);
  });
});

describe("an @ that is being typed", () => {
  test.each([
    ["@", 1, { at: 0, query: "" }],
    ["Hear this @ma", 13, { at: 10, query: "ma" }],
    ["(@Nerys Qu", 10, { at: 1, query: "Nerys Qu" }],
    ["one\n@d", 6, { at: 4, query: "d" }],
    ["@ma and on", 3, { at: 0, query: "ma" }],
  ])("%s", (text, caret, begun) => {
    expect(findMentionBegun(text, caret)).toEqual(begun);
  });

  test.each([
    ["nerys@example", 13],
    ["no sign at all", 5],
    ["@ma\nnext line", 8],
    ["@ma", 0],
    ["@@", 2],
  ])("none in %j", (text, caret) => {
    expect(findMentionBegun(text, caret)).toBeNull();
  });

  test("is matched by any word of a name", () => {
    const nameable = listNameable({ people, me: nerys });
    const found = (query: string) => matchNames(nameable, query).map(({ person: { userId } }) => userId);
    expect(found("")).toEqual(["m", "d"]);
    expect(found("THOR")).toEqual(["d"]);
    expect(found("matthis o")).toEqual(["m"]);
    expect(found("attis")).toEqual([]);
  });

  test("the name stands in its place, with one space behind it", () => {
    const text = "Look @ma here";
    const put = putName(text, { at: 5, query: "ma" }, "Matthis");
    expect(put).toEqual({ text: "Look @Matthis here", caret: 14 });
    expect(putName("@", { at: 0, query: "" }, "Dagny")).toEqual({ text: "@Dagny ", caret: 7 });
  });
});

describe("a comment cut at its names", () => {
  const split = (text: string) =>
    splitMentions(text, people).map((one) => (one.person ? `[${one.text}]` : one.text));

  test.each([
    ["@Nerys, softer", ["[@Nerys]", ", softer"]],
    ["for @matthis  orban and @Dagny.", ["for ", "[@matthis  orban]", " and ", "[@Dagny]", "."]],
    ["@Nerysa is nobody", ["@Nerysa is nobody"]],
    ["nerys@example.org", ["nerys@example.org"]],
    ["@dagny@example.org", ["@dagny@example.org"]],
    ["", []],
  ])("%s", (text, parts) => {
    expect(split(text)).toEqual(parts);
  });

  test("nobody is lost: the parts are the text", () => {
    const text = "  @Nerys @Nerys Quill\n@Orban (@MATTHIS) x@dagny ";
    expect(
      splitMentions(text, people)
        .map((part) => part.text)
        .join(""),
    ).toBe(text);
  });

  test("a name that two have mentions nobody, and signs in names are no patterns", () => {
    const two = [nerys, person("o", "Nerys (II)", "coach")];
    expect(splitMentions("@Nerys", two)).toEqual([{ text: "@Nerys", person: null }]);
    expect(splitMentions("@Nerys (II)!", two).map(({ person: who }) => who?.userId ?? null)).toEqual([
      "o",
      null,
    ]);
  });

  test("whose ink it is", () => {
    expect(splitMentions("@Matthis", [matthis, dagny])).toEqual([{ text: "@Matthis", person: matthis }]);
  });
});
