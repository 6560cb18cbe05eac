import { expect, test } from "vitest";
import type { StripPiece } from "@/app/_ui/strip/strip-piece";
import { looksOnStrip } from "@/app/(desk)/pieces/[pieceId]/_components/room-marks";
import {
  nameVersion,
  pencilsOnStrip,
  sayVersion,
  stretchesOf,
} from "@/app/(desk)/pieces/[pieceId]/_cuts/desk-pencils";
import type { PencilledVersion } from "@/lib/room/pencilled-cut";
import { quarters } from "@/lib/score/quarters";
import { bars, matthis, people } from "./people-and-bars";

/** Bars 1 to 4, then 3 and 4 again; two seconds each. */
const strip = {
  bars: [0, 1, 2, 3, 2, 3].map((barIndex, index) => ({
    ...{ barIndex, label: `${barIndex + 1}`, from: index * 2, to: index * 2 + 2 },
  })),
} as unknown as StripPiece;
const at = (barIndex: number, offset = "0") => ({ barIndex, offset });
const version = (change: Partial<PencilledVersion> = {}): PencilledVersion => ({
  ...{ id: "v", authorId: "n", createdAt: "2026-02-22T10:00:00.000Z", isRubbedOut: false },
  ...{ from: { barIndex: 1, offset: quarters(0, 1) }, to: { barIndex: 3, offset: quarters(0, 1) } },
  ...change,
});

test("a stretch for each time it sounds, ends inside bars by their length", () => {
  expect(stretchesOf({ bars, strip }, at(1), at(3))).toEqual([
    { from: 2, to: 6 },
    { from: 8, to: 10 },
  ]);
  expect(stretchesOf({ bars, strip }, at(0, "2"), at(1, "1"))).toEqual([{ from: 1, to: 2.5 }]);
  expect(stretchesOf({ bars, strip }, at(3), at(3))).toEqual([]);
});

test("a version is named by its bars and its writer", () => {
  const desk = { bars, people, me: matthis };
  expect(nameVersion(bars, version())).toBe("bars 2–3");
  expect(sayVersion(desk, version())).toBe("Nerys: bars 2–3");
  expect(sayVersion(desk, version({ authorId: "m" }))).toBe("You: bars 2–3");
  expect(sayVersion(desk, version({ isRubbedOut: true }))).toBe("Nerys rubbed it out");
});

test("the strip has a mark for each version that stands, in its writer's ink", () => {
  const cut = {
    cutId: "x",
    versions: [version(), version({ id: "w", authorId: "m" }), version({ id: "r", isRubbedOut: true })],
  };
  expect(pencilsOnStrip({ bars, strip, people }, [cut]).map(({ key, ink }) => [key, ink])).toEqual([
    ["v", "pf"],
    ["w", "so"],
  ]);
});

test("the others' places, not one's own and not those of strangers", () => {
  const here = (userId: string, barIndex: number | null, isMe = false) => ({
    ...{ userId, name: "", role: "coach" as const, barIndex, editing: null, isMe },
  });
  const present = [here("n", 1, true), here("m", 2), here("d", null), here("?", 1)];
  expect(looksOnStrip({ strip, people }, present)).toEqual([{ userId: "m", at: 4, ink: "so", initial: "M" }]);
});
