import { describe, expect, it } from "vitest";
import { checkRestNeeds } from "@/lib/breath/check-rest-needs";
import { assessJoin } from "@/lib/cuts/join/assess-join";
import { nameCut } from "@/lib/cuts/name-cut";
import { findCuts } from "@/lib/cuts/search/find-cuts";
import type { RestNeed } from "@/lib/edition/rest-need";
import { readTempoMap } from "@/lib/score/tempo-map";
import { CUT_TRAPS, GOOD_CUT, TUTTIS } from "@/seed/concertino/planted";
import { demoHistory } from "@/seed/demo-history";
import { concertino, cutOf, hearConcertino, positionOf } from "../lib/cuts/join/hear-concertino";

const map = readTempoMap(concertino);

/** The demo's needed rests, as its soloist noted them. */
const needs = demoHistory.restNeeds.map(({ bars: { first, last }, needs: amount, why }): RestNeed => {
  const [from, to] = [first, last + 1].map((bar) => positionOf({ bar: `${bar}`, quarter: 0 }));
  if (!from || !to) throw new Error("No bars");
  return { id: `${first}`, from, to, needs: amount, why, releasedBy: null };
});

describe("the rest that the soloist needs", () => {
  const trap = CUT_TRAPS.find(({ kind }) => kind === "stolen rest");
  if (!trap) throw new Error("No trap");

  it("is stolen by the trap that is named so, with the figures", () => {
    const [checked] = checkRestNeeds(concertino, map, [cutOf(trap)], needs);
    expect(checked?.verdict).toBe("short");
    // 94 quarters of rest at 120 a minute, of which 6 are left.
    expect(checked?.seconds.before).toBeGreaterThan(40);
    expect(checked?.seconds.after).toBeLessThan(5);
    expect(checked?.seconds.shortBy).toBeGreaterThan(20);
    expect(checked?.sentence).toMatch(/\d/);
  });

  it("is kept by every other place where the trap's cut would be allowed", () => {
    const others = needs.slice(1);
    for (const { verdict } of checkRestNeeds(concertino, map, [cutOf(trap)], others))
      expect(verdict).toBe("kept");
    for (const { verdict } of checkRestNeeds(concertino, map, [cutOf(GOOD_CUT)], needs))
      expect(verdict).toBe("kept");
  });
});

describe.each(TUTTIS.filter(({ isLong }) => isLong))("the top five of the $name tutti", (tutti) => {
  const found = findCuts(hearConcertino(), cutOf(tutti), { limit: 5 });

  it("say why in two to four short sentences without shares and decimals", () => {
    expect(found).toHaveLength(5);
    for (const { reasons } of found) {
      expect(reasons.length).toBeGreaterThanOrEqual(2);
      expect(reasons.length).toBeLessThanOrEqual(4);
      for (const reason of reasons) {
        expect(reason).toMatch(/^[A-Z].*\.$/);
        expect(reason.length).toBeLessThanOrEqual(120);
        expect(reason).not.toMatch(/%|\d\.\d|undefined|null|NaN|index|score of/);
      }
    }
  });

  it("lead from every sentence to bars and notes of the piece", () => {
    const noteIds = new Set(concertino.parts.flatMap(({ notes }) => notes.map(({ id }) => id)));
    for (const { assessment } of found) {
      for (const row of assessment.rows) {
        expect(row.bars.length, row.sentence).toBeGreaterThan(0);
        for (const bar of row.bars) expect(concertino.bars[bar], row.sentence).toBeDefined();
        expect(row.noteIds.length, row.sentence).toBeGreaterThan(0);
        for (const id of row.noteIds) expect(noteIds.has(id), row.sentence).toBe(true);
      }
    }
  });

  it("are different cuts", () => {
    const names = found.flatMap((cut) => nameCut(concertino, cut));
    expect(new Set(names).size).toBe(5);
  });
});

describe("the notes behind a sentence", () => {
  const { rows } = assessJoin(hearConcertino(), cutOf(GOOD_CUT));
  const notesOf = (kind: string) => {
    const ids = new Set(rows.find((row) => row.kind === kind)?.noteIds);
    return concertino.parts.flatMap(({ notes }) => notes.filter(({ id }) => ids.has(id)));
  };
  const labels = (kind: string) => [
    ...new Set(notesOf(kind).map(({ barIndex }) => concertino.bars[barIndex]?.label)),
  ];

  it.each([
    ["melody", ["8", "17"]],
    ["harmony", ["8", "17"]],
    ["key", ["8", "17"]],
    ["precedent", ["17"]],
    ["rest", ["28"]],
  ])("%s: stand in bars %j", (kind, bars) => {
    expect(labels(kind).toSorted((a, b) => Number(a) - Number(b))).toEqual(bars);
  });

  it("melody: are the two highest that meet", () => {
    expect(notesOf("melody")).toHaveLength(2);
  });
});
