import { expect, test } from "vitest";
import {
  sayChanges,
  sayCutCount,
  sayOpen,
  saySideShort,
} from "@/app/(desk)/pieces/[pieceId]/editions/_components/say-edition";

test.each([
  [0, "no cuts"],
  [1, "1 cut"],
  [3, "3 cuts"],
])("%d cuts", (count, words) => expect(sayCutCount(count)).toBe(words));

test.each([
  [737, 1, "12:17, 1 cut"],
  [null, 2, "2 cuts"],
])("%j s", (seconds, cutCount, words) => expect(saySideShort({ name: 1, seconds, cutCount })).toBe(words));

test.each([
  [0, 0, "nothing changed"],
  [4, -9.4, "4 changes, 0:09 shorter"],
  [1, 61, "1 change, 1:01 longer"],
  [2, 0.3, "2 changes, as long as before"],
])("%d changes, %d s longer", (count, longer, words) => expect(sayChanges(count, longer)).toBe(words));

test.each([
  [1, "1 answer is open"],
  [2, "2 answers are open"],
])("%d open", (count, words) => expect(sayOpen(count)).toBe(words));
