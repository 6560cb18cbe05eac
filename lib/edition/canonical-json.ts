import canonicalize from "canonicalize";

/** What JSON can hold. */
export type JsonValue =
  | null
  | boolean
  | number
  | string
  | readonly JsonValue[]
  | { readonly [key: string]: JsonValue };

/**
 * The one spelling of a JSON value that is hashed: RFC 8785 (JSON Canonicalization Scheme), after all text and
 * all keys have been brought to Unicode normal form C, so that "é" typed on two machines is one letter.
 *
 * @throws RangeError for a number that is not finite, text that is no Unicode (a lone surrogate), or two keys
 * of one object that become the same.
 */
export function canonicalJson(value: JsonValue): string {
  const text = canonicalize(normalForm(value));
  // `canonicalize` answers undefined for undefined only, which no JSON value is.
  if (text === undefined) throw new RangeError("Nothing to write as JSON");
  return text;
}

function normalForm(value: JsonValue): JsonValue {
  if (typeof value === "string") return normalText(value);
  if (typeof value === "number" && !Number.isFinite(value))
    throw new RangeError(`Not a JSON number: ${value}`);
  if (value === null || typeof value !== "object") return value;
  if (isList(value)) return value.map(normalForm);
  const entries = Object.entries(value).map(([key, item]) => [normalText(key), normalForm(item)] as const);
  const keys = new Set(entries.map(([key]) => key));
  if (keys.size !== entries.length)
    throw new RangeError(`Two keys are the same letters: ${[...keys].join(", ")}`);
  return Object.fromEntries(entries);
}

// `Array.isArray` does not narrow readonly arrays.
function isList(value: object): value is readonly JsonValue[] {
  return Array.isArray(value);
}

function normalText(text: string): string {
  if (/\p{Surrogate}/u.test(text)) throw new RangeError("Text with half a character in it cannot be hashed");
  return text.normalize("NFC");
}
