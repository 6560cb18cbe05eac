import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { findHeads } from "@/lib/room/find-heads";
import { openRoomDoc } from "@/lib/room/open-room-doc";
import { isDisputed } from "@/lib/room/pencilled-cut";
import { readPencilledCuts, readRubbedOut } from "@/lib/room/read-pencilled-cuts";
import { readRecords } from "@/lib/room/read-records";
import { roomAsJson } from "@/lib/room/room-as-json";
import { maxOver } from "@/lib/room/room-limits";
import type { RoomMember } from "@/lib/room/room-member";
import { writeOver } from "@/lib/room/write-over";
import { pianist, soloist } from "@/test/lib/room/room-members";
import { put, versionOf } from "@/test/lib/room/room-records";

const bars = (from: number, to: number, isRubbedOut = false) => ({
  from: { barIndex: from, offset: "0" },
  to: { barIndex: to, offset: "0" },
  isRubbedOut,
});

let names = 0;
const at = "2026-11-25T08:00:00.000Z";

function pencil(doc: Y.Doc, member: RoomMember, terms: ReturnType<typeof bars>, cutId = "p1"): void {
  const newId = () => `v${String(++names).padStart(6, "0")}`;
  for (const record of writeOver(doc, cutId, terms, { authorId: member.userId, at, newId }))
    put(doc, "pencilledCuts", record, member);
}

function meet(...docs: readonly Y.Doc[]): void {
  for (const from of docs) for (const to of docs) Y.applyUpdate(to, Y.encodeStateAsUpdate(from));
}

function twoPages(): [Y.Doc, Y.Doc] {
  return [openRoomDoc(), openRoomDoc()];
}

/** "9–17 by tobias", with "rubbed out" where it is. */
function told(doc: Y.Doc, cuts = readPencilledCuts(doc)): string[][] {
  return cuts.map(({ versions }) =>
    versions.map(
      ({ from, to, authorId, isRubbedOut }) =>
        `${from.barIndex}–${to.barIndex} by ${authorId}${isRubbedOut ? ", rubbed out" : ""}`,
    ),
  );
}

describe("a pencilled cut", () => {
  test("is what was written last, over all before", () => {
    const [doc] = twoPages();
    pencil(doc, soloist, bars(9, 17));
    pencil(doc, pianist, bars(9, 21));
    pencil(doc, soloist, bars(9, 19));
    expect(told(doc)).toEqual([["9–19 by tobias"]]);
    expect(readRecords(doc, "pencilledCuts")).toHaveLength(3);
  });

  test("that two move at the same time has both moves until somebody settles it", () => {
    const [one, other] = twoPages();
    pencil(one, soloist, bars(9, 17));
    meet(one, other);
    pencil(one, soloist, bars(9, 19));
    pencil(other, pianist, bars(9, 21));
    meet(one, other);
    expect(told(one)).toEqual([["9–19 by tobias", "9–21 by ines"]]);
    expect(readPencilledCuts(other).map(isDisputed)).toEqual([true]);
    pencil(other, pianist, bars(9, 19));
    meet(one, other);
    expect(told(one)).toEqual([["9–19 by ines"]]);
  });

  test("that two move alike is not disputed", () => {
    const [one, other] = twoPages();
    pencil(one, soloist, bars(9, 17));
    meet(one, other);
    pencil(one, soloist, bars(9, 19));
    pencil(other, pianist, bars(9, 19));
    meet(one, other);
    expect(told(one)).toEqual([["9–19 by tobias"]]);
    pencil(one, soloist, bars(10, 19));
    expect(told(one)).toEqual([["10–19 by tobias"]]);
  });

  test("that one moves while the other rubs it out is still there, disputed", () => {
    const [one, other] = twoPages();
    pencil(one, soloist, bars(9, 17));
    meet(one, other);
    pencil(one, soloist, bars(9, 17, true));
    pencil(other, pianist, bars(9, 21));
    meet(one, other);
    expect(told(one)).toEqual([["9–17 by tobias, rubbed out", "9–21 by ines"]]);
    expect(readRubbedOut(one)).toEqual([]);
  });

  test("that was rubbed out is among those that can be brought back", () => {
    const [doc] = twoPages();
    pencil(doc, soloist, bars(9, 17));
    pencil(doc, pianist, bars(9, 17, true));
    expect(told(doc)).toEqual([]);
    expect(told(doc, readRubbedOut(doc))).toEqual([["9–17 by ines, rubbed out"]]);
    pencil(doc, soloist, bars(9, 17));
    expect(told(doc)).toEqual([["9–17 by tobias"]]);
    expect(readRubbedOut(doc)).toEqual([]);
  });

  test("stands in the order of first pencilling, others beside it", () => {
    const [doc] = twoPages();
    pencil(doc, soloist, bars(40, 50), "p2");
    pencil(doc, soloist, bars(9, 17), "p1");
    pencil(doc, soloist, bars(41, 50), "p2");
    expect(told(doc)).toEqual([["41–50 by tobias"], ["9–17 by tobias"]]);
  });

  test("whose versions name each other in a circle does not vanish", () => {
    const circle = [versionOf(soloist, "v1", [9, 17], ["v2"]), versionOf(pianist, "v2", [9, 21], ["v1"])];
    expect(findHeads(circle).map(({ id }) => id)).toEqual(["v1"]);
    const apart = versionOf(pianist, "v3", [1, 2], ["other"]);
    expect(findHeads([...circle, apart]).map(({ id }) => id)).toEqual(["v1", "v3"]);
  });

  test("of more versions than one may name is settled in several", () => {
    const [doc] = twoPages();
    for (let index = 0; index < 2 * maxOver + 3; index += 1)
      put(doc, "pencilledCuts", versionOf(soloist, `a${index}`, [1, 2 + index]), soloist);
    expect(readPencilledCuts(doc)[0]?.versions).toHaveLength(2 * maxOver + 3);
    pencil(doc, pianist, bars(9, 17));
    expect(told(doc)).toEqual([["9–17 by ines"]]);
  });
});

describe("laws of pencilled cuts", () => {
  const move = fc.record({ from: fc.nat(3), length: fc.integer({ min: 1, max: 3 }), out: fc.boolean() });
  const termsOf = ({ from, length, out }: { from: number; length: number; out: boolean }) =>
    bars(from, from + length, out);
  const step = fc.record({ page: fc.nat(2), move, meet: fc.boolean() });
  const at3: readonly RoomMember[] = [pianist, soloist, pianist];

  function play(steps: readonly { page: number; move: Parameters<typeof termsOf>[0]; meet: boolean }[]) {
    const pages = at3.map(() => openRoomDoc());
    let written = 0;
    for (const { page, move: terms, meet: isMeeting } of steps) {
      const before = readRecords(pages[page] as Y.Doc, "pencilledCuts").length;
      pencil(pages[page] as Y.Doc, at3[page] as RoomMember, termsOf(terms));
      written += readRecords(pages[page] as Y.Doc, "pencilledCuts").length - before;
      if (isMeeting) meet(pages[page] as Y.Doc, pages[0] as Y.Doc);
    }
    meet(...pages, ...pages);
    return { pages: pages as [Y.Doc, Y.Doc, Y.Doc], written };
  }

  test("all pages end with the same versions, and no move is lost", () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 12 }), (steps) => {
        const { pages, written } = play(steps);
        expect(new Set(pages.map(roomAsJson)).size).toBe(1);
        expect(readRecords(pages[0], "pencilledCuts")).toHaveLength(written);
      }),
      { numRuns: 200 },
    );
  });

  test("two moves at the same time are disputed, unless they are equal", () => {
    fc.assert(
      fc.property(fc.array(step, { maxLength: 6 }), move, move, (steps, mine, theirs) => {
        const { pages } = play(steps);
        const [one, other] = pages;
        pencil(one, pianist, termsOf(mine));
        pencil(other, soloist, termsOf(theirs));
        meet(one, other);
        const [cut] = [...readPencilledCuts(one), ...readRubbedOut(one)];
        const isEqual = JSON.stringify(mine) === JSON.stringify(theirs);
        expect(cut && isDisputed(cut)).toBe(!isEqual);
        expect(cut?.versions).toHaveLength(isEqual ? 1 : 2);
      }),
      { numRuns: 200 },
    );
  });

  test("settling ends every dispute, with the terms that were chosen", () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 10 }), move, (steps, chosen) => {
        const [doc] = play(steps).pages;
        pencil(doc, soloist, termsOf(chosen));
        const cuts = [...readPencilledCuts(doc), ...readRubbedOut(doc)];
        expect(cuts.map(isDisputed)).toEqual([false]);
        expect(told(doc, cuts)).toEqual([
          [`${chosen.from}–${chosen.from + chosen.length} by tobias${chosen.out ? ", rubbed out" : ""}`],
        ]);
      }),
      { numRuns: 200 },
    );
  });
});
