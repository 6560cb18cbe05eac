import type { JsonValue } from "@/lib/edition/canonical-json";

/** Everything in a JSON value that can be altered, one thing at a time: each leaf, each key, each item. */
export function* alterations(value: JsonValue): Generator<JsonValue> {
  if (value === null) yield "null";
  else if (typeof value === "boolean") yield !value;
  else if (typeof value === "number") yield value + 1;
  else if (typeof value === "string") yield alterText(value);
  else if (isList(value)) yield* alterList(value);
  else yield* alterObject(value);
}

const isList = (value: JsonValue): value is readonly JsonValue[] => Array.isArray(value);

/** Of the same kind where there is one: a hash stays a hash, a moment a moment, a key a key. */
function alterText(text: string): string {
  const digit = /[0-9](?=\D*$)/.exec(text);
  if (!digit) return `${text}x`;
  const other = digit[0] === "1" ? "2" : "1";
  return text.slice(0, digit.index) + other + text.slice(digit.index + 1);
}

function* alterList(list: readonly JsonValue[]): Generator<JsonValue> {
  for (const [index, item] of list.entries()) {
    yield list.toSpliced(index, 1);
    for (const other of alterations(item)) yield list.toSpliced(index, 1, other);
  }
}

function* alterObject(value: { readonly [key: string]: JsonValue }): Generator<JsonValue> {
  for (const [key, item] of Object.entries(value)) {
    for (const other of alterations(item)) yield { ...value, [key]: other };
    if (item === null) continue;
    const { [key]: _gone, ...rest } = value;
    yield rest;
  }
}
