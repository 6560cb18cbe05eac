import { expect, test } from "vitest";
import { sayDeed, sayField } from "@/app/(desk)/_performances/say-change";

test.each([
  ["result", "", "passed", "Result: “passed” instead of nothing"],
  ["remarks", "Too fast.", "Too fast at C.", "To remember: “Too fast at C.” instead of “Too fast.”"],
  ["realSeconds", 500, 492.4, "Time by the clock: 8:12 instead of 8:20"],
  ["editionNumber", 3, 4, "Edition: № 4 instead of № 3"],
  ["kind", "jury", "run-through", "Kind: run-through instead of jury"],
  ["on", "2026-02-14", "2026-02-15", "Day: 2026-02-15 instead of 2026-02-14"],
  ["sections", null, {}, null],
  ["isRemoved", false, true, null],
])("%s", (field, before, after, words) => expect(sayField(field, before, after)).toBe(words));

test("deeds in words; one that is not known keeps its name", () => {
  expect([sayDeed("performance changed"), sayDeed("something new")]).toEqual(["changed it", "something new"]);
});
