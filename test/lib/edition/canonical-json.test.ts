import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { canonicalJson, type JsonValue } from "@/lib/edition/canonical-json";

// RFC 8785 (A. Rundgren, B. Jordan, S. Erdtman, "JSON Canonicalization Scheme", 2020).
describe("the published examples of RFC 8785", () => {
  test("section 3.2.2: the sample object", () => {
    const sample = JSON.parse(String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`);
    expect(canonicalJson(sample)).toBe(
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    );
  });

  test("section 3.2.3: keys are sorted by UTF-16 code units", () => {
    const sample = JSON.parse(String.raw`{
      "\u20ac": "Euro Sign",
      "\r": "Carriage Return",
      "\ufb33": "Hebrew Letter Dalet With Dagesh",
      "1": "One",
      "\ud83d\ude00": "Emoji: Grinning Face",
      "\u0080": "Control",
      "\u00f6": "Latin Small Letter O With Diaeresis"
    }`);
    // The RFC has the Hebrew letter last. Our step before it writes U+FB33, which normal form C excludes, as
    // U+05D3 U+05BC (Unicode, CompositionExclusions.txt), and that sorts before the euro sign.
    expect(Object.values(JSON.parse(canonicalJson(sample)))).toEqual([
      "One", // JSON.parse lists keys that look like an index first; in the text the line end comes before.
      "Carriage Return",
      "Control",
      "Latin Small Letter O With Diaeresis",
      "Hebrew Letter Dalet With Dagesh",
      "Euro Sign",
      "Emoji: Grinning Face",
    ]);
    expect(canonicalJson(sample)).toMatch(/^\{"\\r":"Carriage Return","1":"One","\u0080":/);
  });

  test.each([
    ["0000000000000000", "0"],
    ["8000000000000000", "0"],
    ["0000000000000001", "5e-324"],
    ["8000000000000001", "-5e-324"],
    ["7fefffffffffffff", "1.7976931348623157e+308"],
    ["ffefffffffffffff", "-1.7976931348623157e+308"],
    ["4340000000000000", "9007199254740992"],
    ["c340000000000000", "-9007199254740992"],
    ["4430000000000000", "295147905179352830000"],
    ["44b52d02c7e14af5", "9.999999999999997e+22"],
    ["44b52d02c7e14af6", "1e+23"],
    ["44b52d02c7e14af7", "1.0000000000000001e+23"],
    ["444b1ae4d6e2ef4e", "999999999999999700000"],
    ["444b1ae4d6e2ef4f", "999999999999999900000"],
    ["444b1ae4d6e2ef50", "1e+21"],
    ["3eb0c6f7a0b5ed8c", "9.999999999999997e-7"],
    ["3eb0c6f7a0b5ed8d", "0.000001"],
    ["41b3de4355555553", "333333333.3333332"],
    ["41b3de4355555554", "333333333.33333325"],
    ["41b3de4355555555", "333333333.3333333"],
    ["41b3de4355555556", "333333333.3333334"],
    ["41b3de4355555557", "333333333.33333343"],
    ["becbf647612f3696", "-0.0000033333333333333333"],
    ["43143ff3c1cb0959", "1424953923781206.2"],
  ])("appendix B: the double %s is %s", (bits, text) => {
    expect(canonicalJson(Buffer.from(bits, "hex").readDoubleBE())).toBe(text);
  });

  test.each(["7fffffffffffffff", "7ff0000000000000"])("appendix B: the double %s is refused", (bits) => {
    expect(() => canonicalJson(Buffer.from(bits, "hex").readDoubleBE())).toThrow(RangeError);
  });
});

describe("text", () => {
  test("the same letters are the same text, composed or not (Unicode normal form C)", () => {
    expect(canonicalJson({ "re\u0301ponse": "Ve\u0301ra" })).toBe(
      canonicalJson({ r\u00e9ponse: "V\u00e9ra" }),
    );
  });

  test("half a character is refused", () => {
    expect(() => canonicalJson("\ud83d")).toThrow(RangeError);
    expect(() => canonicalJson({ "\ude00": 1 })).toThrow(RangeError);
  });

  test("two keys that are the same letters are refused", () => {
    expect(() => canonicalJson({ "e\u0301": 1, "\u00e9": 2 })).toThrow(RangeError);
  });
});

test("law: reading it back and writing it again changes nothing", () => {
  fc.assert(
    fc.property(fc.jsonValue({ noUnicodeString: false }), (value) => {
      const text = write(value as JsonValue);
      if (text !== null) expect(canonicalJson(JSON.parse(text))).toBe(text);
    }),
  );
});

/** Arbitrary JSON may hold what is refused on purpose. */
function write(value: JsonValue): string | null {
  try {
    return canonicalJson(value);
  } catch (error) {
    expect(error).toBeInstanceOf(RangeError);
    return null;
  }
}
