import { expect, test } from "vitest";
import { namePlace, nameSpan } from "@/app/_ui/name-span";

const bars = ["1", "2", "3", "", "4"].map((label) => ({ label, length: "4", beats: ["0", "1", "2", "3"] }));
const at = (barIndex: number, offset = "0") => ({ barIndex, offset });

test.each([
  [at(0), at(1), "bar 1"],
  [at(0), at(3), "bars 1–3"],
  [at(1), at(4, "4"), "bars 2–4"],
  [at(4), at(4, "4"), "bar 4"],
  [at(0, "2"), at(2, "1"), "bar 1 beat 3 to bar 3 beat 2"],
  [at(1, "1"), at(2), "bar 2 beat 2 to bar 3 beat 1"],
  [at(1, "3/2"), at(4, "4"), "bar 2, 3/2 quarters in to the end"],
  [at(2), at(3, "1"), "bar 3 beat 1 to the bar after 3 beat 2"],
])("%j to %j is %s", (from, to, name) => {
  expect(nameSpan(bars, from, to)).toBe(name);
});

test("a place", () => {
  expect(namePlace(bars, at(2))).toBe("bar 3");
  expect(namePlace(bars, at(2, "1"))).toBe("bar 3 beat 2");
  expect(namePlace(bars, at(3))).toBe("the bar after 3");
});
