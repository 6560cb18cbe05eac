import { execFileSync } from "node:child_process";
import path from "node:path";
import { build } from "esbuild";
import fc from "fast-check";
import { beforeAll, describe, expect, test } from "vitest";
import { canonicalJson, type JsonValue } from "@/lib/edition/canonical-json";
import {
  type EditionContent,
  frozenContentSchema,
  hashEdition,
  readEditionContent,
  writeEditionContent,
} from "@/lib/edition/edition-content";
import { hashTerms } from "@/lib/edition/hash-terms";
import { arbitraryEdition } from "@/test/builders/arbitrary-editions";
// Computed once by a program in another language from RFC 8785, Unicode normal form C and SHA-256. They never change:
// what was agreed to is known by its hash.
import vectors from "./vectors/hashes.json";

describe("hashes that were computed elsewhere", () => {
  test.each(vectors)("$name", ({ value, sha256 }) => {
    expect(hashTerms(value as JsonValue)).toBe(sha256);
  });

  const editions = vectors.filter(({ name }) => name.startsWith("an edition"));
  test.each(editions)("$name, as an edition", ({ value, sha256 }) => {
    const content = frozenContentSchema.parse(value);
    expect(hashEdition(inAnotherOrder(content))).toBe(sha256);
    expect(hashEdition(readEditionContent(writeEditionContent(content)))).toBe(sha256);
    const decomposed = frozenContentSchema.parse(rewrite(value as JsonValue, "NFD"));
    expect(hashEdition(decomposed)).toBe(sha256);
  });

  test("both schemas are among them", () => {
    expect(editions.map(({ value }) => (value as { schema: number }).schema)).toEqual([1, 1, 2, 2]);
  });
});

/** The same edition with every list turned round. */
function inAnotherOrder(content: EditionContent): EditionContent {
  const { cuts, breaths, cues, rewrites, remarks } = content;
  return {
    ...{ ...content, cuts: cuts.toReversed(), breaths: breaths.toReversed(), cues: cues.toReversed() },
    ...{ rewrites: rewrites.toReversed(), remarks: remarks.toReversed() },
  };
}

/** The same value with the keys of every object in another order and all text in another Unicode form. */
function rewrite(value: JsonValue, form: "NFC" | "NFD"): JsonValue {
  if (typeof value === "string") return value.normalize(form);
  if (value === null || typeof value !== "object") return value;
  if (Array.isArray(value)) return value.map((item: JsonValue) => rewrite(item, form));
  return Object.fromEntries(
    Object.entries(value)
      .toReversed()
      .map(([key, item]) => [key.normalize(form), rewrite(item, form)]),
  );
}

const arbitraryJson = fc
  .jsonValue({ stringUnit: "grapheme" })
  // The fast-check type of JSON is its own.
  .map((value) => value as JsonValue)
  .filter((value) => isHashable(value));

/** Keys that are the same letters in two forms are refused on purpose. */
function isHashable(value: JsonValue): boolean {
  try {
    canonicalJson(value);
    return true;
  } catch (error) {
    expect(error).toBeInstanceOf(RangeError);
    return false;
  }
}

describe("laws", () => {
  test("neither the order of keys nor the form of letters changes a hash", () => {
    fc.assert(
      fc.property(arbitraryJson, fc.constantFrom("NFC", "NFD"), (value, form) => {
        expect(hashTerms(rewrite(value, form))).toBe(hashTerms(value));
      }),
    );
  });

  test("nor that of an edition, nor the order in which its parts came together", () => {
    fc.assert(
      fc.property(arbitraryEdition, fc.constantFrom("NFC", "NFD"), (edition, form) => {
        const written: JsonValue = JSON.parse(writeEditionContent(edition));
        const other = frozenContentSchema.parse(rewrite(written, form));
        expect(hashEdition(inAnotherOrder(other))).toBe(hashEdition(edition));
      }),
    );
  });

  test("the normal form is one: written, read and written again it is the same text", () => {
    fc.assert(
      fc.property(arbitraryEdition, (edition) => {
        const text = writeEditionContent(edition);
        expect(text).toBe(text.normalize("NFC"));
        expect(writeEditionContent(readEditionContent(text))).toBe(text);
      }),
    );
  });
});

describe("another machine", () => {
  let program = "";
  beforeAll(async () => {
    const root = path.resolve(import.meta.dirname, "../../..");
    const built = await build({
      stdin: {
        contents: `import { hashTerms } from "@/lib/edition/hash-terms";
          import vectors from "./vectors/hashes.json";
          console.log(vectors.map(({ value }) => hashTerms(value)).join(" "));`,
        resolveDir: import.meta.dirname,
      },
      ...{ alias: { "@": root }, bundle: true, platform: "node", format: "esm", write: false },
    });
    program = built.outputFiles[0]?.text ?? "";
  });

  test.each([
    ["in Turkey, where the letter i is another", { LC_ALL: "tr_TR.UTF-8", TZ: "Europe/Istanbul" }, []],
    ["beyond the date line, without a language", { LC_ALL: "C", TZ: "Pacific/Kiritimati" }, []],
    ["that computes without compiling", {}, ["--jitless", "--no-expose-wasm"]],
  ])("%s comes to the same hashes", (_name, env, flags) => {
    const told = execFileSync(process.execPath, [...flags, "--input-type=module", "-"], {
      ...{ input: program, encoding: "utf8", env: { ...process.env, ...env } },
    });
    expect(told.trim().split(" ")).toEqual(vectors.map(({ sha256 }) => sha256));
  });
});
