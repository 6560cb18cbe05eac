import { createHash } from "node:crypto";
import fc from "fast-check";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { archiveEntries, sealOf } from "@/lib/edition/archive/archive-entries";
import { sayArchiveProblem } from "@/lib/edition/archive/archive-problem";
import type { ArchiveManifest } from "@/lib/edition/archive/archive-schemas";
import { checkEditionArchive } from "@/lib/edition/archive/check-edition-archive";
import type { EditionArchive } from "@/lib/edition/archive/edition-archive";
import { readEditionArchive } from "@/lib/edition/archive/read-edition-archive";
import { isPackedByUs, writeEditionArchive } from "@/lib/edition/archive/write-edition-archive";
import { canonicalJson, type JsonValue } from "@/lib/edition/canonical-json";
import { buildEditionArchive } from "@/test/builders/build-edition-archive";

const archive = buildEditionArchive();
const exported = writeEditionArchive(archive);
const entries = archiveEntries(archive);
const sha256 = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");

/** What is said about an archive: null when nothing is wrong with it. */
function findFault(bytes: Uint8Array): string | null {
  const read = readEditionArchive(bytes);
  if (!read.ok) return sayArchiveProblem(read.problem);
  const faults = checkEditionArchive(read.value).filter(({ holds }) => !holds);
  return faults.length > 0 ? faults.flatMap(({ sentences }) => sentences).join(" ") : null;
}

type Files = Map<string, Uint8Array>;

function changed(change: (files: Files) => void): Uint8Array {
  const files = new Map(entries);
  change(files);
  return zipSync(Object.fromEntries(files), { level: 0 });
}

/** As somebody would who knows how an archive is made: lists and seals anew what was changed. */
function resealed(change: (files: Files) => void): Uint8Array {
  return changed((files) => {
    change(files);
    const manifest: ArchiveManifest = JSON.parse(strFromU8(files.get("manifest.json")!));
    const listed = [...files]
      .filter(([name]) => name !== "manifest.json")
      .map(([name, bytes]) => ({ name, byteLength: bytes.length, sha256: sha256(bytes) }));
    const fresh = { ...manifest, entries: listed };
    files.set("manifest.json", strToU8(canonicalJson({ ...fresh, seal: sealOf(fresh) })));
  });
}

describe("an exported edition", () => {
  test("holds what can be checked without the program", () => {
    const files = unzipSync(exported);
    for (const { number, hash } of archive.editions) {
      expect(sha256(files[`editions/${number}/content.json`]!)).toBe(hash);
    }
    const manifest: ArchiveManifest = JSON.parse(strFromU8(files["manifest.json"]!));
    expect(manifest.entries.map(({ name, sha256: told }) => [name, told])).toEqual(
      Object.entries(files)
        .filter(([name]) => name !== "manifest.json")
        .map(([name, bytes]) => [name, sha256(bytes)]),
    );
    expect(files[`sources/${archive.sources[0]?.hash}.musicxml`]).toEqual(archive.sources[0]?.bytes);
    expect(strFromU8(files["README.txt"]!)).toContain(
      `Performing edition № 3\n${archive.editions[2]?.hash}\n`,
    );
  });

  test("is whole", () => {
    const read = readEditionArchive(exported);
    if (!read.ok) throw new Error(sayArchiveProblem(read.problem));
    expect(checkEditionArchive(read.value).map(({ about, holds }) => [about, holds])).toEqual(
      ["files", "seal", "hashes", "chain", "approvals", "sources"].map((about) => [about, true]),
    );
    expect(isPackedByUs(exported, read.value)).toBe(true);
  });

  test("law: exported, imported and exported again it is the same to the byte", () => {
    const some = fc.record({
      title: fc.string({ unit: "grapheme", maxLength: 40 }),
      fileName: fc.string({ unit: "grapheme", maxLength: 40 }),
      source: fc.uint8Array({ maxLength: 200 }),
      count: fc.integer({ min: 1, max: 3 }),
    });
    fc.assert(
      fc.property(some, ({ title, fileName, source, count }) => {
        const bytes = exportOf({ title, fileName, source, count });
        const read = readEditionArchive(bytes);
        if (!read.ok) throw new Error(sayArchiveProblem(read.problem));
        expect(Buffer.compare(writeEditionArchive(read.value.archive), bytes)).toBe(0);
      }),
    );
  });

  /** The usual archive with other words, and of its first editions only; a second source is nobody's. */
  function exportOf(some: { title: string; fileName: string; source: Uint8Array; count: number }) {
    const extra = { hash: sha256(some.source), fileName: some.fileName, bytes: some.source };
    return writeEditionArchive({
      ...archive,
      piece: { ...archive.piece, title: some.title },
      editions: archive.editions.slice(0, some.count),
      sources: [extra, ...archive.sources],
    });
  }

  // Made once and kept here: a new version of this program, of a library or of the machine must write the same bytes.
  // Should the schemas or the README have to change, count up the `schema` of the manifest and keep the old ones.
  test("has the same bytes on every machine and in every version", () => {
    const fixed = writeEditionArchive(buildEditionArchive(undefined, strToU8("a source")));
    expect(sha256(fixed)).toBe("c46e991a0dcc5f3f39396192c3f4c085877b5be06e38738c663ad4c940892977");
  });

  test("is still whole when another program packs the same files", () => {
    const repacked = zipSync(Object.fromEntries([...entries].reverse()), { level: 1 });
    const read = readEditionArchive(repacked);
    expect(findFault(repacked)).toBeNull();
    expect(read.ok && isPackedByUs(repacked, read.value)).toBe(false);
  });

  const [first, second, third] = archive.editions;
  test.each<[string, Partial<EditionArchive>]>([
    ["a hash that is another's", { editions: [{ ...first!, hash: second!.hash }] }],
    ["a gap in the chain", { editions: [first!, third!] }],
    ["one approval only", { editions: [{ ...first!, approvals: first!.approvals.slice(1) }] }],
    ["no source", { sources: [] }],
    ["no edition", { editions: [] }],
  ])("with %s is not exported", (_name, change) => {
    expect(() => writeEditionArchive({ ...archive, ...change })).toThrow(RangeError);
  });
});

/** Everything that can be altered in a JSON value, one thing at a time. */
function* alterations(value: JsonValue): Generator<JsonValue> {
  if (value === null) yield "null";
  else if (typeof value === "boolean") yield !value;
  else if (typeof value === "number") yield* [value + 1, -value - 1, `${value}`];
  else if (typeof value === "string") yield* alterText(value);
  else if (isList(value)) yield* alterList(value);
  else yield* alterObject(value);
}

const isList = (value: JsonValue): value is readonly JsonValue[] => Array.isArray(value);

function* alterText(text: string): Generator<JsonValue> {
  yield `${text}x`;
  yield null;
  const [head, last] = [text.slice(0, -1), text.slice(-1)];
  if (last) yield head + (last === "0" ? "1" : "0");
}

function* alterList(list: readonly JsonValue[]): Generator<JsonValue> {
  for (const [index, item] of list.entries()) {
    yield list.toSpliced(index, 1);
    for (const other of alterations(item)) yield list.toSpliced(index, 1, other);
  }
  if (list[0] !== undefined) yield [...list, list[0]];
  if (list.length > 1) yield list.toReversed();
}

function* alterObject(value: { readonly [key: string]: JsonValue }): Generator<JsonValue> {
  yield { ...value, more: true };
  for (const [key, item] of Object.entries(value)) {
    const { [key]: _gone, ...rest } = value;
    yield rest;
    for (const other of alterations(item)) yield { ...value, [key]: other };
  }
}

const jsonNames = [...entries.keys()].filter((name) => name.endsWith(".json"));
const readEntry = (name: string): JsonValue => JSON.parse(strFromU8(entries.get(name)!));
const everyAlteration = jsonNames.flatMap((name) =>
  [...alterations(readEntry(name))].map((value) => ({ name, bytes: strToU8(canonicalJson(value)) })),
);

describe("tampering is found", () => {
  test("every single field of every file, altered, removed, doubled or added to", () => {
    expect(everyAlteration.length).toBeGreaterThan(1000);
    const unnoticed = everyAlteration.filter(
      ({ name, bytes }) => findFault(changed((files) => files.set(name, bytes))) === null,
    );
    expect(unnoticed).toEqual([]);
  });

  test("law: any byte of any file", () => {
    const place = fc.tuple(fc.constantFrom(...entries.keys()), fc.nat(), fc.integer({ min: 1, max: 255 }));
    fc.assert(
      fc.property(place, ([name, at, flip]) => {
        const bytes = entries.get(name)!.slice();
        bytes[at % bytes.length]! ^= flip;
        expect(findFault(changed((files) => files.set(name, bytes)))).not.toBeNull();
      }),
      { numRuns: 500 },
    );
  });

  test("law: any byte of the archive itself is found, or is seen not to be as we packed it", () => {
    fc.assert(
      fc.property(fc.nat(exported.length - 1), fc.integer({ min: 1, max: 255 }), (at, flip) => {
        const bytes = exported.slice();
        bytes[at]! ^= flip;
        if (findFault(bytes) !== null) return;
        const read = readEditionArchive(bytes);
        expect(read.ok && isPackedByUs(bytes, read.value)).toBe(false);
      }),
      { numRuns: 500 },
    );
  });

  test.each([...entries.keys()])("%s taken away or under another name", (name) => {
    expect(findFault(changed((files) => files.delete(name)))).not.toBeNull();
    const renamed = changed((files) => files.set(`${name}x`, files.get(name)!).delete(name));
    expect(findFault(renamed)).not.toBeNull();
  });

  test("a file put in", () => {
    const fault = findFault(changed((files) => files.set("editions/4/note.txt", strToU8("and repeat"))));
    expect(fault).toBe("editions/4/note.txt was added after the archive was packed.");
  });

  test("the same JSON in another spelling", () => {
    for (const name of jsonNames) {
      const spaced = strToU8(JSON.stringify(readEntry(name), null, 1));
      expect(findFault(changed((files) => files.set(name, spaced)))).not.toBeNull();
    }
  });
});

describe("tampering by somebody who lists and seals anew", () => {
  const swap = (one: string, other: string) => (files: Files) => {
    const bytes = files.get(one)!;
    files.set(one, files.get(other)!).set(other, bytes);
  };
  const alter = (name: string, change: (value: never) => JsonValue) => (files: Files) =>
    files.set(name, strToU8(canonicalJson(change(readEntry(name) as never))));
  interface Named {
    hash: string;
    approvals: { hash: string; role: string }[];
  }

  test.each<[string, (files: Files) => void, string]>([
    [
      "two editions exchanged",
      (files) => {
        swap("editions/1/content.json", "editions/2/content.json")(files);
        swap("editions/1/record.json", "editions/2/record.json")(files);
      },
      "Where № 1 should stand is № 2.",
    ],
    [
      "two contents exchanged",
      swap("editions/1/content.json", "editions/2/content.json"),
      "№ 1 is not what was agreed to: its content has another hash than its record.",
    ],
    [
      "a cut opened",
      alter("editions/3/content.json", (content: { cuts: JsonValue[] }) => ({ ...content, cuts: [] })),
      "№ 3 is not what was agreed to: its content has another hash than its record.",
    ],
    [
      "the edition before",
      alter("editions/2/record.json", (record: Named) => ({ ...record, previousHash: record.hash })),
      "№ 2 does not follow № 1: it names another hash.",
    ],
    [
      "an edition before the first",
      alter("editions/1/record.json", (record: Named) => ({ ...record, previousHash: record.hash })),
      "№ 1 names an edition before it.",
    ],
    [
      "an approval of something else",
      alter("editions/2/record.json", (record: Named) => ({
        ...record,
        approvals: record.approvals.map((one) => ({ ...one, hash: archive.editions[0]!.hash })),
      })),
      "What Nerys Quill approved is not № 2: the approval names another hash.",
    ],
    [
      "an approval gone",
      alter("editions/2/record.json", (record: Named) => ({
        ...record,
        approvals: record.approvals.filter(({ role }) => role === "pianist"),
      })),
      "№ 2 was approved by no soloist.",
    ],
    [
      "a note in the source",
      (files) => {
        const name = [...files.keys()].find((one) => one.startsWith("sources/"))!;
        files.set(name, strToU8(strFromU8(files.get(name)!).replace("<step>C", "<step>D")));
      },
      `The source ${archive.sources[0]!.hash} is another file.`,
    ],
    [
      "the last edition gone",
      (files) => {
        files.delete("editions/3/content.json");
        files.delete("editions/3/record.json");
      },
      "The archive is not whole: editions/3/content.json is missing.",
    ],
  ])("%s", (_name, change, sentence) => expect(findFault(resealed(change))).toContain(sentence));

  test("every single field of every content, and every number and hash of every record", () => {
    const telling = everyAlteration.filter(({ name, bytes }) => {
      if (name.endsWith("content.json")) return true;
      return name.endsWith("record.json") && told(bytes) !== told(entries.get(name)!);
    });
    expect(telling.length).toBeGreaterThan(250);
    const unnoticed = telling.filter(
      ({ name, bytes }) => findFault(resealed((files) => files.set(name, bytes))) === null,
    );
    expect(unnoticed).toEqual([]);
  });

  /** What of a record the chain itself vouches for. Names and moments are vouched for by the seal alone. */
  function told(bytes: Uint8Array): string {
    const record = JSON.parse(strFromU8(bytes));
    const approvals = record.approvals?.map?.((one: { hash?: string } | null) => one?.hash);
    return JSON.stringify([record.number, record.hash, record.previousHash, [...new Set(approvals)]]);
  }
});

describe("what is no exported edition gets a sentence", () => {
  test.each([
    ["nothing", new Uint8Array(), /^This is not an exported edition/],
    ["a letter", strToU8("Dear Clara"), /^This is not an exported edition/],
    ["half of one", exported.subarray(0, exported.length >> 1), /^The archive is damaged or cut off\./],
    [
      "another archive",
      zipSync({ "a.txt": strToU8("x") }),
      /manifest\.json is missing\. Export the edition again/,
    ],
    [
      "a list that is none",
      changed((files) => files.set("manifest.json", strToU8("[]"))),
      /manifest\.json is not what it should be \(.*expected object/,
    ],
    [
      "a later form",
      changed((files) => files.set("manifest.json", strToU8('{"schema":2}'))),
      /manifest\.json is not what it should be \(schema: /,
    ],
    [
      "bytes that are no text",
      changed((files) => files.set("editions/1/content.json", Uint8Array.of(0x22, 0xff, 0x22))),
      /content\.json is not what it should be \(it is no JSON in UTF-8\)/,
    ],
    [
      "a file of JSON without end",
      changed((files) => files.set("editions/1/record.json", new Uint8Array(4_000_001).fill(0x20))),
      /record\.json is not what it should be \(it is too large\)/,
    ],
  ])("%s", (_name, bytes, sentence) => expect(findFault(bytes)).toMatch(sentence));
});
