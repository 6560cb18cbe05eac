import { describe, expect, it } from "vitest";
import { readRestNeeds } from "@/lib/inspect/read-rest-needs";
import { readTempoMap } from "@/lib/score/tempo-map";
import { at, buildScore } from "../../builders/build-score";

/** Bars 1–8 of rest, an upbeat into bar 9, two bars of solo, three of rest. */
const score = buildScore({
  tempo: 60,
  solo: "R*7 | r:h. c5:q | c5:w | c5:w | R*3",
  piano: Array.from({ length: 13 }, () => "c3:w").join(" | "),
});
const map = readTempoMap(score);

function read(entries: unknown) {
  return readRestNeeds(typeof entries === "string" ? entries : JSON.stringify(entries), score, map);
}

function sentenceOf(entries: unknown): string {
  const needs = read(entries);
  return needs.ok ? "no problem" : needs.problem.sentence;
}

describe("needed rests from a file", () => {
  it("takes a printed bar number for the rest before that bar", () => {
    expect(read([{ bar: "8", seconds: 20, why: " lip " }])).toEqual({
      ok: true,
      value: [{ id: "1", from: at(0), to: at(7, 3), needs: { seconds: 20 }, why: "lip", releasedBy: null }],
    });
  });

  it("takes the rest that a bar begins in, when no entry stands in the bar", () => {
    const needs = read([{ bar: "12", bars: 2, why: "mute" }]);
    expect(needs.ok && needs.value).toMatchObject([{ needs: { bars: 2 }, from: at(10) }]);
  });

  it("takes exact places", () => {
    const entry = {
      from: { barIndex: 0, offset: "0" },
      to: { barIndex: 7, offset: "5/2" },
      bars: 6,
      why: "lip",
    };
    const needs = read([entry]);
    expect(needs.ok && needs.value).toMatchObject([{ from: at(0), to: { barIndex: 7 }, needs: { bars: 6 } }]);
  });

  const good = { bar: "8", seconds: 20, why: "lip" };

  it.each([
    ["what is no JSON", "[{", /not JSON/],
    ["what is no list", { needs: [] }, /has to hold a list/],
    ["an entry that is no object", [good, "97"], /^Entry 2 is no object/],
    ["no place", [{ seconds: 20, why: "lip" }], /^Entry 1 names no place/],
    ["a bar number without quotes", [{ ...good, bar: 8 }], /write the printed number in quotes/],
    [
      "a bar that is absent",
      [good, { ...good, bar: "97" }],
      /^Entry 2 names bar 97, .* \(its bars are 1–13\)\.$/,
    ],
    [
      "a bar before which nothing is silent",
      [{ ...good, bar: "10" }],
      /^Entry 1: the soloist does not rest before bar 10\.$/,
    ],
    ["no amount", [{ bar: "8", why: "lip" }], /^Entry 1 has to say how long/],
    ["two amounts", [{ ...good, bars: 3 }], /^Entry 1 has to say how long/],
    ["a negative amount", [{ ...good, seconds: -3 }], /^Entry 1 has "seconds" that are no number above 0/],
    ["no reason", [{ bar: "8", seconds: 20 }], /^Entry 1 has no "why"/],
    ["a word it does not know", [{ ...good, second: 20 }], /^Entry 1 has "second", which means nothing here/],
    [
      "a place outside the piece",
      [{ from: { barIndex: 0, offset: "0" }, to: { barIndex: 99, offset: "0" }, bars: 1, why: "lip" }],
      /^Entry 1 names a place outside the piece\.$/,
    ],
    [
      "a place that ends before it begins",
      [{ from: { barIndex: 3, offset: "0" }, to: { barIndex: 1, offset: "0" }, bars: 1, why: "lip" }],
      /^Entry 1 ends before it begins\.$/,
    ],
  ])("says which entry is wrong, and how, for %s", (_name, entries, sentence) => {
    expect(sentenceOf(entries)).toMatch(sentence);
  });

  it("asks for exact places where a number is printed twice", () => {
    const twice = {
      ...score,
      bars: score.bars.map((bar) => ({ ...bar, label: bar.index < 2 ? "1" : bar.label })),
    };
    const needs = readRestNeeds(JSON.stringify([{ ...good, bar: "1" }]), twice, map);
    expect(needs.ok ? "" : needs.problem.sentence).toMatch(/2 bars are numbered so: give "from" and "to"/);
  });
});
