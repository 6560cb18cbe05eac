import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cutTermsSchema, toCutSpan, toCutTerms } from "@/lib/edition/cut-terms";
import { hashTerms, hashText } from "@/lib/edition/hash-terms";
import { positionTermsSchema } from "@/lib/edition/position-terms";
import { compareQuarters, noQuarters, quarters } from "@/lib/score/quarters";

const sourceHash = hashText("a source");
const terms = toCutTerms(
  { from: { barIndex: 84, offset: quarters(0) }, to: { barIndex: 96, offset: quarters(3, 2) } },
  sourceHash,
);

describe("hash of text", () => {
  // FIPS 180-2, appendix B.1 and B.2.
  test.each([
    ["abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
    [
      "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
      "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    ],
  ])("SHA-256 of %s", (text, hash) => expect(hashText(text)).toBe(hash));

  test("law: it is that of the platform", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme" }), (text) => {
        expect(hashText(text)).toBe(createHash("sha256").update(text, "utf8").digest("hex"));
      }),
    );
  });
});

describe("hash of terms", () => {
  test("does not depend on the order of the keys", () => {
    const { kind, from, to } = terms;
    const { barIndex, offset } = to;
    expect(hashTerms({ to: { offset, barIndex }, sourceHash, from, kind })).toBe(hashTerms(terms));
  });

  test("law: other places, other hash", () => {
    const place = fc.record({
      barIndex: fc.nat(600),
      offset: fc.tuple(fc.nat(16), fc.integer({ min: 1, max: 14 })),
    });
    const toTerms = (span: { from: Place; to: Place }) => toCutTerms(toSpan(span), sourceHash);
    fc.assert(
      fc.property(fc.record({ from: place, to: place }), fc.record({ from: place, to: place }), (a, b) => {
        const isSame = isSamePlace(a.from, b.from) && isSamePlace(a.to, b.to);
        expect(hashTerms(toTerms(a)) === hashTerms(toTerms(b))).toBe(isSame);
      }),
    );
  });

  test("another source is another cut", () => {
    expect(hashTerms({ ...terms, sourceHash: hashText("another") })).not.toBe(hashTerms(terms));
  });
});

interface Place {
  barIndex: number;
  offset: [number, number];
}

function toSpan({ from, to }: { from: Place; to: Place }) {
  return { from: toPosition(from), to: toPosition(to) };
}

function toPosition({ barIndex, offset: [num, den] }: Place) {
  return { barIndex, offset: quarters(num, den) };
}

function isSamePlace(a: Place, b: Place): boolean {
  return a.barIndex === b.barIndex && compareQuarters(quarters(...a.offset), quarters(...b.offset)) === 0;
}

describe("terms at the boundary", () => {
  test("a span comes back from its terms", () => {
    const span = { from: { barIndex: 3, offset: quarters(1, 3) }, to: { barIndex: 9, offset: noQuarters } };
    expect(toCutSpan(toCutTerms(span, sourceHash))).toEqual(span);
  });

  test.each(["0", "3/2", "1/3", "16"])("the offset %s is a place", (offset) => {
    expect(positionTermsSchema.safeParse({ barIndex: 1, offset }).success).toBe(true);
  });

  test.each(["-1", "2/4", "4/2", "1/0", "0.5", "1 /2", "", "01", "1e2", "9999999999999999"])(
    "the offset “%s” is none: one place has one spelling",
    (offset) => expect(positionTermsSchema.safeParse({ barIndex: 1, offset }).success).toBe(false),
  );

  test.each([
    ["another kind", { ...terms, kind: "rewrite" }],
    ["something more", { ...terms, note: "and repeat" }],
    ["no bar", { ...terms, from: { offset: "0" } }],
    ["a bar before the first", { ...terms, from: { barIndex: -1, offset: "0" } }],
    ["half a bar number", { ...terms, from: { barIndex: 1.5, offset: "0" } }],
    ["a short hash", { ...terms, sourceHash: "abc" }],
  ])("terms with %s are refused", (_what, input) => {
    expect(cutTermsSchema.safeParse(input).success).toBe(false);
  });
});
