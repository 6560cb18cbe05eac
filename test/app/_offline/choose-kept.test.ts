import { describe, expect, test } from "vitest";
import { chooseKept, findUnused } from "@/app/_offline/choose-kept";
import type { KeptPiece } from "@/app/_offline/kept-piece";

/**
 * `"a 3: x=10 y=5"`: piece a, opened on the third, of parts x (10 bytes) and y. `-` belongs to no piece, `a№2` is an edition
 * of a, `*e` the page of programme e.
 */
function piece(text: string): KeptPiece {
  const [, id = "", edition, day = "", parts = ""] = /^([^\s№]+)(?:№(\d+))? (\d+): ?(.*)$/.exec(text) ?? [];
  return {
    pieceId: /^[-*]/.test(id) ? null : id,
    programme: id.startsWith("*") ? id.slice(1) : null,
    edition: edition === undefined ? null : Number(edition),
    openedAt: `2026-11-${day.padStart(2, "0")}T10:00:00.000Z`,
    parts: parts
      .split(" ")
      .filter(Boolean)
      .map((part) => ({ address: `/${part.split("=")[0]}`, bytes: Number(part.split("=")[1]) })),
  };
}

describe("which pieces stay", () => {
  test.each<[what: string, pieces: string[], limits: [pieces: number, bytes: number], kept: string[]]>([
    ["none of none", [], [8, 100], []],
    ["all within the limits", ["a 1: x=10", "b 2: y=10"], [8, 100], ["b", "a"]],
    ["those opened last, by number", ["a 1: x=1", "b 3: y=1", "c 2: z=1"], [2, 100], ["b", "c"]],
    ["those opened last, by size", ["a 1: x=40", "b 3: y=40", "c 2: z=40"], [8, 100], ["b", "c"]],
    ["the last one, however large", ["a 1: x=1", "b 2: y=400"], [8, 100], ["b"]],
    ["shared files count once", ["a 1: s=60 x=10", "b 2: s=60 y=10", "c 3: s=60"], [8, 90], ["c", "b", "a"]],
    ["an older small one does not pass a large one", ["a 1: x=1", "b 2: y=99", "c 3: z=50"], [8, 100], ["c"]],
    ["an edition lies beside its piece", ["a 1: x=1", "a№2 3: y=1", "b 2: z=1"], [1, 100], ["a№2", "a"]],
    [
      "of each piece the editions opened last",
      ["a 9: x=1", "a№1 1: p=1", "a№2 2: q=1", "a№3 3: r=1", "b 8: y=1", "b№1 1: s=1"],
      [8, 100],
      ["a", "b", "a№3", "a№2", "b№1"],
    ],
    ["editions count by size", ["a 3: x=40", "a№1 2: y=40", "b 1: z=40"], [8, 100], ["a", "a№1"]],
    [
      "programmes opened last stay beside the lists and are no pieces",
      ["*d 1: d=1", "*e 3: e=1", "*f 2: f=1", "- 9: l=1", "a 9: x=1"],
      [1, 100],
      ["-", "*e", "*f", "a"],
    ],
    ["the lists stay and are no piece", ["- 1: l=5", "a 2: x=1", "b 3: y=1"], [1, 100], ["-", "b"]],
  ])("%s", (_what, pieces, [most, bytes], kept) => {
    const chosen = chooseKept(pieces.map(piece), { pieces: most, programmes: 2, editions: 2, bytes });
    const named = chosen.map(
      ({ pieceId, edition, programme }) =>
        `${pieceId ?? (programme === null ? "-" : `*${programme}`)}${edition === null ? "" : `№${edition}`}`,
    );
    expect(named).toEqual(kept);
  });
});

test("what no piece needs goes: files of older builds, engravings since redone", () => {
  const stored = ["/app-1.js", "/app-2.js", "/page", "/engraving/old/0", "/engraving/new/0"];
  const pieces = [piece("a 1: app-2.js=1 page=1"), piece("b 1: page=1 engraving/new/0=9")];
  expect(findUnused(stored, pieces)).toEqual(["/app-1.js", "/engraving/old/0"]);
});
