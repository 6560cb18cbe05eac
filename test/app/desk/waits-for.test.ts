import { expect, test } from "vitest";
import { waitsFor } from "@/app/_data/desk/waits-for";

const people = [
  { userId: "nerys", role: "pianist" },
  { userId: "former", role: "pianist" },
  { userId: "matthis", role: "soloist" },
  { userId: "dagny", role: "coach" },
] as const;

test.each([
  ["nerys", "open", "matthis", true],
  ["matthis", "open", "nerys", true],
  ["nerys", "open", "nerys", false],
  // Somebody in one's own place cannot be answered by oneself.
  ["nerys", "open", "former", false],
  ["nerys", "agreed", "matthis", false],
  ["dagny", "open", "nerys", false],
  ["nerys", "open", "nobody here", true],
] as const)("to %s an %s proposal of %s waits: %s", (whom, state, proposedBy, expected) => {
  const me = people.find(({ userId }) => userId === whom) ?? people[0];
  expect(waitsFor(me, people, { state, proposedBy })).toBe(expected);
});
