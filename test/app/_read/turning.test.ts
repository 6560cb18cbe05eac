import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  fetchOrder,
  firstShown,
  type Leaves,
  pagesReady,
  pagesShown,
  type Turn,
  turned,
} from "@/app/_read/turning";

const single = (pageCount: number): Leaves => ({ pageCount, sideBySide: 1 });
const pairs = (pageCount: number): Leaves => ({ pageCount, sideBySide: 2 });

describe("turning", () => {
  test.each<[what: string, page: number, turn: Turn, leaves: Leaves, then: number]>([
    ["on", 1, "on", single(5), 2],
    ["back", 2, "back", single(5), 1],
    ["on at the end", 5, "on", single(5), 5],
    ["back at the start", 1, "back", single(5), 1],
    ["to the start", 4, "first", single(5), 1],
    ["to the end", 1, "last", single(5), 5],
    ["on by two", 1, "on", pairs(5), 3],
    ["on by two, from a right-hand page", 2, "on", pairs(5), 3],
    ["on to a last page that stands alone", 3, "on", pairs(5), 5],
    ["on at the end of pairs", 3, "on", pairs(4), 3],
    ["back by two", 5, "back", pairs(5), 3],
    ["to the last pair", 1, "last", pairs(4), 3],
    ["of nothing", 1, "on", single(0), 1],
  ])("%s", (_what, page, turn, leaves, then) => {
    expect(turned(page, turn, leaves)).toBe(then);
  });

  test("a page that an address makes up is brought within the edition", () => {
    expect([firstShown(99, single(5)), firstShown(-3, single(5)), firstShown(99, pairs(5))]).toEqual([
      5, 1, 5,
    ]);
  });

  test("whoever turns on from the start sees every page once, in order, each drawn before it is shown", () => {
    const leavesOf = fc.record({
      pageCount: fc.integer({ min: 1, max: 40 }),
      sideBySide: fc.constantFrom<1 | 2>(1, 2),
    });
    fc.assert(
      fc.property(leavesOf, (leaves) => {
        const seen: number[] = [];
        let page = 1;
        for (;;) {
          seen.push(...pagesShown(page, leaves));
          const next = turned(page, "on", leaves);
          if (next === page) break;
          expect(pagesReady(page, leaves)).toEqual(expect.arrayContaining(pagesShown(next, leaves)));
          expect(turned(next, "back", leaves)).toBe(page);
          expect(pagesReady(next, leaves)).toEqual(expect.arrayContaining(pagesShown(page, leaves)));
          page = next;
        }
        expect(seen).toEqual(Array.from({ length: leaves.pageCount }, (_, index) => index + 1));
        expect(page).toBe(turned(1, "last", leaves));
      }),
    );
  });

  test("every page is fetched once, those that are played next first", () => {
    expect(fetchOrder(3, single(5))).toEqual([3, 4, 5, 2, 1]);
    expect(fetchOrder(4, pairs(6))).toEqual([3, 4, 5, 6, 2, 1]);
    expect(fetchOrder(1, single(0))).toEqual([]);
  });
});
