import { describe, expect, test } from "vitest";
import {
  moveItem,
  type ProgrammeItem,
  replaceItem,
  withoutItem,
} from "@/app/(desk)/performances/programme/[programmeId]/_components/programme-items";
import { readGap } from "@/app/(desk)/performances/programme/[programmeId]/_components/read-gap";

const items = ["a", "b", "c"].map((itemId): ProgrammeItem => ({ kind: "kept", itemId, gapSeconds: 0 }));
const ids = (list: readonly ProgrammeItem[]) =>
  list.map((item) => (item.kind === "kept" ? item.itemId : item.kind)).join("");

describe("the order of a programme", () => {
  test.each([
    [1, -1, "bac"],
    [1, 1, "acb"],
    [0, -1, "abc"],
    [2, 1, "abc"],
  ] as const)("entry %d moved by %d", (index, by, order) =>
    expect(ids(moveItem(items, index, by))).toBe(order),
  );

  test("one is replaced, or taken out", () => {
    const words: ProgrammeItem = {
      kind: "words",
      title: "x",
      plannedSeconds: 1,
      realSeconds: null,
      gapSeconds: 0,
    };
    expect(ids(replaceItem(items, 1, words))).toBe("awordsc");
    expect(ids(withoutItem(items, 0))).toBe("bc");
  });
});

test.each([
  ["0:30", 30],
  ["1:15", 75],
  ["45", 45],
  ["", 0],
  ["soon", null],
  ["-5", null],
  ["3:00:00", null],
])("a gap %j", (text, seconds) => expect(readGap(text)).toBe(seconds));
