import { expect, test } from "vitest";
import { placePencils } from "@/app/_ui/strip/place-pencils";
import { makeScale } from "@/app/_ui/strip/scale";

const scale = makeScale(100, 1000);
const pencil = (key: string, ...gaps: [number, number][]) => ({
  ...{ key, ink: "pf" as const },
  gaps: gaps.map(([from, to]) => ({ from, to })),
});

test("each stretch has its line; those over one another are stacked, three at most", () => {
  const pencils = [
    pencil("a", [10, 20], [60, 70]),
    pencil("b", [15, 25]),
    pencil("c", [22, 30]),
    pencil("d", [18, 23]),
    pencil("e", [19, 24]),
  ];
  const lines = placePencils(pencils, scale).map(({ key, x, end, level }) => [key, x, end, level]);
  expect(lines).toEqual([
    ["a", 100, 200, 0],
    ["a", 600, 700, 0],
    ["b", 150, 250, 1],
    ["c", 220, 300, 0],
    ["d", 180, 230, 2],
    ["e", 190, 240, 2],
  ]);
});
