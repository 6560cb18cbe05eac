import { describe, expect, it } from "vitest";
import { assessJoin } from "@/lib/cuts/join/assess-join";
import type { JoinRowKind } from "@/lib/cuts/join/join-row";
import { nameCut } from "@/lib/cuts/name-cut";
import { findCuts } from "@/lib/cuts/search/find-cuts";
import { findStarts } from "@/lib/cuts/search/find-starts";
import { CUT_TRAPS, type CutTrap, GOOD_CUT, TUTTIS } from "@/seed/concertino/planted";
import { concertino, cutOf, hearConcertino } from "./hear-concertino";

const longTuttis = TUTTIS.filter(({ isLong }) => isLong);

describe("the concertino's good cut", () => {
  const { grade, rows, repaired, toWrite } = assessJoin(hearConcertino(), cutOf(GOOD_CUT));

  it("is clean in every row, and nothing has to be written anew", () => {
    expect(rows.filter((row) => row.grade !== "clean")).toEqual([]);
    expect({ grade, repaired, toWrite }).toEqual({ grade: "clean", repaired: null, toWrite: [] });
  });

  it("is known as the join that the piece makes from bar 16 to bar 17", () => {
    const precedent = rows.find(({ kind }) => kind === "precedent");
    expect(precedent?.sentence).toBe(
      "The same bars lead to the cut and to bar 17: the join sounds as the piece does there.",
    );
  });

  it("is among the first three of the opening tutti", () => {
    const [opening] = longTuttis;
    if (!opening) throw new Error("The concertino has no opening tutti");
    const names = findCuts(hearConcertino(), cutOf(opening), { limit: 3 }).map((cut) =>
      nameCut(concertino, cut),
    );
    expect(names).toContain("bars 9–16");
  });
});

describe("the concertino's traps", () => {
  /** The row that has to say what is wrong. */
  const telling: Record<CutTrap["kind"], { row: JoinRowKind; says: RegExp }> = {
    "wrong key": { row: "key", says: /from F major to G minor inside a phrase/ },
    "broken tie": { row: "held", says: /tie is broken: one note held into bar 110/ },
    "lost lead-in": { row: "lead-in", says: /takes the soloist's entry in bar 28/ },
    "stolen rest": { row: "rest", says: /rest of 94 beats only 6 remain/ },
    "lost beat": { row: "metre", says: /bar 8 comes out with three beats/ },
  };

  it.each(CUT_TRAPS)("$kind is rough, and the row says why", ({ kind, ...trap }) => {
    const { grade, rows } = assessJoin(hearConcertino(), cutOf(trap));
    const { row: name, says } = telling[kind];
    const row = rows.find((one) => one.kind === name);
    expect(grade).toBe("rough");
    expect(row?.grade).toBe("rough");
    expect(row?.sentence).toMatch(says);
  });

  it("offers to give back the lost beat", () => {
    const trap = CUT_TRAPS.find(({ kind }) => kind === "lost beat");
    if (!trap) throw new Error("No trap");
    const { repaired } = assessJoin(hearConcertino(), cutOf(trap));
    expect(repaired?.grade).toBe("clean");
    expect(repaired?.cut).toEqual(cutOf(GOOD_CUT));
  });
});

describe.each(longTuttis)("cuts in the $name tutti", (tutti) => {
  const found = findCuts(hearConcertino(), cutOf(tutti), { limit: 5 });

  it("are five, none of them rough, none of them a trap, with reasons in words", () => {
    expect(found).toHaveLength(5);
    const traps = CUT_TRAPS.map((trap) => nameCut(concertino, cutOf(trap)));
    for (const { grade, from, to, reasons, savedSeconds } of found) {
      expect(grade).not.toBe("rough");
      expect(traps).not.toContain(nameCut(concertino, { from, to }));
      expect(reasons.length).toBeGreaterThanOrEqual(2);
      expect(savedSeconds).toBeGreaterThan(3);
    }
  });

  it("keep the beats, the soloist's notes and four bars before the entry", () => {
    for (const { assessment } of found) {
      for (const kind of ["metre", "lead-in", "rest"]) {
        expect(assessment.rows.find((row) => row.kind === kind)?.grade).toBe("clean");
      }
    }
  });

  it("come from the best down", () => {
    const costs = found.map(({ cost }) => cost);
    expect(costs).toEqual(costs.toSorted((a, b) => a - b));
  });
});

describe("places to start the concertino at", () => {
  it("are beginnings of phrases in the home key", () => {
    const [opening] = longTuttis;
    if (!opening) throw new Error("The concertino has no opening tutti");
    const starts = findStarts(hearConcertino(), cutOf(opening), { limit: 2 });
    expect(starts.map((cut) => nameCut(concertino, cut))).toEqual(["bars 0–8", "bars 0–16"]);
    expect(starts.map(({ grade }) => grade)).toEqual(["clean", "clean"]);
  });
});
