import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fitPages } from "@/app/_read/fit-pages";
import { firstBarOf, pageOfBar } from "@/app/_read/page-of-bar";
import { readAddress, writeAddress } from "@/app/_read/reading-address";
import { describePage, sayPages } from "@/app/_read/say-page";
import type { ReadingPage } from "@/lib/engrave/pages/reading-plan";

const page = { width: 540, height: 720 };

describe("fitting", () => {
  test.each([
    ["a tablet upright", 834, 1194, 1],
    ["a tablet lying down", 1194, 834, 2],
    ["a large tablet lying down", 1366, 1024, 2],
    ["a desk's screen", 1440, 900, 2],
    ["a phone upright", 390, 844, 1],
    ["a phone lying down", 844, 390, 2],
    ["a square", 1000, 1000, 1],
  ])("%s", (_what, width, height, sideBySide) => {
    expect(fitPages(page, { width, height }).sideBySide).toBe(sideBySide);
  });

  test("pages keep their shape, fit whole, and reach one of the edges", () => {
    const sizes = fc.record({
      width: fc.integer({ min: 300, max: 3000 }),
      height: fc.integer({ min: 300, max: 3000 }),
    });
    fc.assert(
      fc.property(sizes, (window) => {
        const { sideBySide, width, height } = fitPages(page, window);
        expect(width * sideBySide).toBeLessThanOrEqual(window.width);
        expect(height).toBeLessThanOrEqual(window.height);
        expect(Math.abs(width / height - page.width / page.height)).toBeLessThan(0.01);
        expect(window.width - width * sideBySide <= sideBySide || window.height - height <= 1).toBe(true);
      }),
    );
  });
});

describe("the address", () => {
  test.each([
    ["", "", null, 1],
    ["?for=soloist", "#page-3", "soloist", 3],
    ["?for=pianist", "", "pianist", 1],
    ["?for=conductor", "#page-0", null, 1],
    ["", "#page-12345", null, 1],
    ["", "#page--2", null, 1],
    ["?x=1", "#main", null, 1],
    ["?programme=p-1&for=soloist", "", "soloist", 1, "p-1"],
    ["?programme=../x", "", null, 1],
  ])("%s%s", (search, hash, reader, page, programme: string | null = null) => {
    expect(readAddress({ search, hash })).toEqual({ for: reader, programme, page });
  });

  test("what is written is read", () => {
    for (const address of [
      { for: null, programme: null, page: 1 },
      { for: "soloist", programme: null, page: 7 },
      { for: "pianist", programme: "p-1", page: 1 },
      { for: null, programme: "p-1", page: 2 },
    ] as const) {
      const url = new URL(writeAddress(address), "http://desk.test/read");
      expect(readAddress(url)).toEqual(address);
    }
  });
});

/** `"0 4 | 9 12"`: pages whose lines begin with these bars. */
function pagesOf(text: string): ReadingPage[] {
  return text.split("|").map((bars, index) => ({
    number: index + 1,
    words: [],
    turn: null,
    systems: bars
      .trim()
      .split(" ")
      .map((bar, line) => ({
        ...{ index: line, x: 0, y: 0, width: 1, height: 1, alt: `Bar ${bar}`, firstBarIndex: Number(bar) },
      })),
  }));
}

test("changing to the other's pages stays at the same bars", () => {
  const score = { pages: pagesOf("0 4 | 9 12 | 17") };
  const part = { pages: pagesOf("0 6 14 | 20") };
  expect([0, 5, 9, 16, 17, 99].map((bar) => pageOfBar(score, bar))).toEqual([1, 1, 2, 2, 3, 3]);
  expect(pageOfBar(part, firstBarOf(score, 3))).toBe(1);
  expect(pageOfBar(score, firstBarOf(part, 2))).toBe(3);
  expect(firstBarOf(part, 9)).toBe(0);
});

test("pages are told in words", () => {
  expect([sayPages([3], 12), sayPages([3, 4], 12), sayPages([], 0)]).toEqual([
    "Page 3 of 12",
    "Pages 3 and 4 of 12",
    "Page 1 of 0",
  ]);
  expect(pagesOf("0 4 | 9").map(describePage)).toEqual(["Page 1: Bar 0. Bar 4.", "Page 2: Bar 9."]);
});
