import { describe, expect, test } from "vitest";
import { chooseSides, listSides, readSide, saySide } from "@/lib/edition/choose-sides";

const nothing = { earlier: undefined, later: undefined };

describe("which two are compared", () => {
  test.each([
    ["nothing frozen yet", 0, true, { earlier: "printed", later: "working" }],
    ["one edition, changed since", 1, true, { earlier: 1, later: "working" }],
    ["one edition, nothing since", 1, false, { earlier: "printed", later: 1 }],
    ["three editions, changed since", 3, true, { earlier: 3, later: "working" }],
    ["three editions, nothing since", 3, false, { earlier: 2, later: 3 }],
  ])("%s", (_name, editionCount, hasChanged, sides) =>
    expect(chooseSides(nothing, { editionCount, hasChanged })).toEqual(sides),
  );

  test("what is asked for is taken", () =>
    expect(chooseSides({ earlier: "printed", later: "2" }, { editionCount: 3, hasChanged: true })).toEqual({
      earlier: "printed",
      later: 2,
    }));

  test("only the later one asked for: the one before it", () =>
    expect(chooseSides({ earlier: undefined, later: "2" }, { editionCount: 3, hasChanged: true })).toEqual({
      earlier: 1,
      later: 2,
    }));

  test.each(["4", "0", "-1", "1.0", "№ 1", "", ["1"], undefined, null])("%j names no side of three", (text) =>
    expect(readSide(text, { editionCount: 3 })).toBeNull(),
  );

  test("every side has a name of its own", () => {
    const names = listSides({ editionCount: 3 }).map(saySide);
    expect(names).toEqual(["as printed", "№ 1", "№ 2", "№ 3", "as it stands"]);
  });
});
