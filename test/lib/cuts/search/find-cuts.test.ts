import { describe, expect, it } from "vitest";
import { nameCut } from "@/lib/cuts/name-cut";
import { findCuts, findCutsFrom, searchCuts } from "@/lib/cuts/search/find-cuts";
import { findStarts } from "@/lib/cuts/search/find-starts";
import type { CutSpan } from "@/lib/score/cut-span";
import { onsetOf } from "@/lib/score/onset-of";
import { compareQuarters, noQuarters, scaleQuarters, subtractQuarters } from "@/lib/score/quarters";
import { GOOD_CUT, TUTTIS } from "@/seed/concertino/planted";
import { concertino, cutOf, hearConcertino, positionOf } from "../join/hear-concertino";

const heard = hearConcertino();
const opening = cutOf(TUTTIS[0] as (typeof TUTTIS)[number]);
const central = cutOf(TUTTIS[2] as (typeof TUTTIS)[number]);
const names = (cuts: readonly CutSpan[]) => cuts.map((cut) => nameCut(concertino, cut));

describe("findCuts", () => {
  it("keeps to bar lines when asked to", () => {
    for (const { from, to } of findCuts(heard, central, { resolution: "bars" })) {
      expect([from.offset.num, to.offset.num]).toEqual([0, 0]);
    }
  });

  it("finds nothing better on bar lines than on beats, but perhaps the same", () => {
    const [onBars] = findCuts(heard, opening, { resolution: "bars", limit: 1 });
    const [onBeats] = findCuts(heard, opening, { limit: 1 });
    expect(onBeats?.cost).toBeLessThanOrEqual(onBars?.cost ?? 0);
  });

  it("keeps as many bars before the entry as are asked for", () => {
    const entryBar = positionOf({ bar: "28", quarter: 2 }).barIndex;
    for (const bars of [6, 10]) {
      const found = findCuts(heard, opening, { keepLastBars: bars, resolution: "bars" });
      expect(found.length).toBeGreaterThan(0);
      for (const { to } of found) expect(entryBar - to.barIndex).toBeGreaterThanOrEqual(bars);
    }
  });

  it("leaves out no rehearsal mark that is to stay", () => {
    const marks = concertino.parts.flatMap(({ directions }) =>
      directions.flatMap((direction) => (direction.kind === "rehearsal" ? [direction] : [])),
    );
    const inOpening = marks.find(
      ({ onset }) => compareQuarters(onset, onsetOf(concertino, positionOf({ bar: "12", quarter: 0 }))) > 0,
    );
    if (!inOpening) throw new Error("No rehearsal mark");
    const span = { from: positionOf({ bar: "1", quarter: 0 }), to: central.to };
    for (const { from, to } of findCuts(heard, span, {
      keepRehearsal: [inOpening.text],
      resolution: "bars",
    })) {
      const isTaken =
        compareQuarters(onsetOf(concertino, from), inOpening.onset) <= 0 &&
        compareQuarters(inOpening.onset, onsetOf(concertino, to)) < 0;
      expect(isTaken).toBe(false);
    }
  });

  it("saves between the least and the most seconds asked for", () => {
    const found = findCuts(heard, opening, { leastSeconds: 10, mostSeconds: 20 });
    expect(found.length).toBeGreaterThan(0);
    for (const { savedSeconds } of found) {
      expect(savedSeconds).toBeGreaterThanOrEqual(10 - 1e-3);
      expect(savedSeconds).toBeLessThanOrEqual(20 + 1e-3);
    }
  });

  it("loses no theme when it is to be kept", () => {
    for (const { assessment } of findCuts(heard, central, { keepTheme: true })) {
      expect(assessment.rows.find(({ kind }) => kind === "theme")?.grade).toBe("clean");
    }
  });

  it("gives cuts that differ by more than two beats at one end at least", () => {
    const found = findCuts(heard, central);
    const twoBeats = scaleQuarters(
      subtractQuarters(
        onsetOf(concertino, { barIndex: 2, offset: noQuarters }),
        onsetOf(concertino, { barIndex: 1, offset: noQuarters }),
      ),
      1,
      2,
    );
    const isNear = (a: CutSpan["from"], b: CutSpan["from"]) => {
      const apart = subtractQuarters(onsetOf(concertino, a), onsetOf(concertino, b));
      return compareQuarters(apart.num < 0 ? scaleQuarters(apart, -1) : apart, twoBeats) <= 0;
    };
    for (const [index, cut] of found.entries()) {
      for (const other of found.slice(0, index)) {
        expect(isNear(cut.from, other.from) && isNear(cut.to, other.to)).toBe(false);
      }
    }
  });

  it("finds nothing where there is no room", () => {
    expect(findCuts(heard, cutOf(TUTTIS[3] as (typeof TUTTIS)[number]))).toEqual([]);
    expect(findCuts(heard, { from: opening.from, to: opening.from })).toEqual([]);
  });

  it("refuses filters that make no sense, and spans outside the piece", () => {
    expect(() => findCuts(heard, opening, { limit: -1 })).toThrow(RangeError);
    expect(() => findCuts(heard, opening, { leastSeconds: Number.NaN })).toThrow(RangeError);
    const outside = { barIndex: 9999, offset: noQuarters };
    expect(() => findCuts(heard, { from: opening.from, to: outside })).toThrow(RangeError);
  });
});

describe("a search that tells how far it has come", () => {
  it("counts up to its total and ends with what findCuts finds", () => {
    const search = searchCuts(heard, opening, { limit: 3 });
    const shares: number[] = [];
    let step = search.next();
    for (; !step.done; step = search.next()) shares.push(step.value.done / step.value.total);
    expect(shares.length).toBeGreaterThan(20);
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    expect(shares.at(-1)).toBe(1);
    expect(names(step.value)).toEqual(names(findCuts(heard, opening, { limit: 3 })));
  });

  it("stops when it is told to", () => {
    let calls = 0;
    const found = findCuts(
      heard,
      opening,
      {},
      {
        onProgress: () => {
          calls += 1;
          return calls < 5;
        },
      },
    );
    expect({ calls, found }).toEqual({ calls: 5, found: [] });
  });
});

describe("findCutsFrom", () => {
  it("begins all cuts at one place and lands before the next entry", () => {
    const from = positionOf(GOOD_CUT.from);
    const found = findCutsFrom(heard, from);
    expect(names(found)).toContain("bars 9–16");
    for (const cut of found) {
      expect(cut.from).toEqual(from);
      expect(compareQuarters(onsetOf(concertino, cut.to), onsetOf(concertino, opening.to))).toBeLessThan(0);
    }
  });
});

describe("findStarts", () => {
  it("leaves out everything from the very beginning, and keeps the lead-in", () => {
    const found = findStarts(heard, opening);
    expect(found.length).toBeGreaterThan(1);
    for (const { from, assessment } of found) {
      expect(from).toEqual({ barIndex: 0, offset: noQuarters });
      expect(assessment.rows.find(({ kind }) => kind === "lead-in")?.grade).toBe("clean");
    }
  });
});
