import { describe, expect, test } from "vitest";
import {
  newRestNeedSchema,
  type RestNeedTerms,
  restNeedTermsSchema,
  toRestNeed,
  usualRestReasons,
} from "@/lib/edition/rest-need-terms";
import { noQuarters, quarters } from "@/lib/score/quarters";

const terms: RestNeedTerms = {
  sourceHash: "a".repeat(64),
  from: { barIndex: 8, offset: "0" },
  to: { barIndex: 15, offset: "3/2" },
  needs: { seconds: 18 },
  why: "lip",
};

describe("the terms of a needed rest", () => {
  test("become the need that the analyses take, positions exact", () => {
    expect(toRestNeed({ id: "n1", terms, releasedBy: "corin" })).toEqual({
      id: "n1",
      from: { barIndex: 8, offset: noQuarters },
      to: { barIndex: 15, offset: quarters(3, 2) },
      needs: { seconds: 18 },
      why: "lip",
      releasedBy: "corin",
    });
  });

  test.each<[string, object]>([
    ["half bars", { needs: { bars: 2.5 } }],
    ["words of one's own", { why: "turn the page" }],
    ["a tenth of a second", { needs: { seconds: 0.1 } }],
    ...usualRestReasons.map((why): [string, object] => [why, { why }]),
  ])("may be %s", (_, change) => {
    expect(restNeedTermsSchema.safeParse({ ...terms, ...change }).success).toBe(true);
  });

  test.each([
    ["no time", { needs: { seconds: 0 } }],
    ["less than none", { needs: { bars: -1 } }],
    ["a quarter of a bar", { needs: { bars: 0.25 } }],
    ["501 bars", { needs: { bars: 501 } }],
    ["no end of time", { needs: { seconds: Number.POSITIVE_INFINITY } }],
    ["two amounts", { needs: { seconds: 3, bars: 1 } }],
    ["an end before its beginning", { to: { barIndex: 7, offset: "0" } }],
    ["no reason", { why: "" }],
    ["another spelling of a place", { to: { barIndex: 15, offset: "6/4" } }],
  ])("may not be %s", (_, change) => {
    for (const schema of [restNeedTermsSchema, newRestNeedSchema])
      expect(schema.safeParse({ ...terms, ...change }).success).toBe(false);
  });

  test("as stored they stand alone; as sent, what comes beside them is left out", () => {
    const more = { ...terms, pieceId: "p", releasedBy: "somebody" };
    expect(restNeedTermsSchema.safeParse(more).success).toBe(false);
    expect(newRestNeedSchema.parse(more)).toEqual(terms);
  });
});
