import fc from "fast-check";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { afterEach, describe, expect, test } from "vitest";
import { readArchive } from "@/lib/zip/read-archive";
import { writeArchive } from "@/lib/zip/write-archive";

const limits = { entries: 20, totalBytes: 300_000, entryBytes: 200_000, ratio: 250, ratioFreeBytes: 50_000 };
const read = (bytes: Uint8Array) => readArchive(bytes, limits);
const files = (entries: Record<string, string>) =>
  new Map(Object.entries(entries).map(([name, text]) => [name, strToU8(text)] as const));

const timeZone = process.env.TZ;
afterEach(() => {
  if (timeZone === undefined) delete process.env.TZ;
  else process.env.TZ = timeZone;
});

describe("an archive", () => {
  test("law: what was packed is unpacked, and the order in which it came does not matter", () => {
    const name = fc.stringMatching(/^[a-z0-9]{1,8}(\/[a-z0-9]{1,8})?\.(json|txt)$/);
    const content = fc.uint8Array({ maxLength: 300, size: "max" });
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.tuple(name, content), { maxLength: 12, selector: ([one]) => one }),
        (all) => {
          const packed = writeArchive(new Map(all));
          const unpacked = read(packed);
          if (!unpacked.ok) throw new Error(unpacked.problem.kind);
          expect([...unpacked.value].map(([one, bytes]) => [one, [...bytes]])).toEqual(
            all.map(([one, bytes]) => [one, [...bytes]]).sort(([a = ""], [b = ""]) => (a < b ? -1 : 1)),
          );
          expect(writeArchive(new Map(all.toReversed()))).toEqual(packed);
        },
      ),
    );
  });

  test("is the same wherever the clock stands", () => {
    const some = files({ "a.txt": "one", "b/c.json": "{}" });
    const packed = ["UTC", "Pacific/Kiritimati", "America/St_Johns"].map((zone) => {
      process.env.TZ = zone;
      return Buffer.from(writeArchive(some)).toString("hex");
    });
    expect(new Set(packed).size).toBe(1);
  });

  test("is read by the library that knows the format", () => {
    const unpacked = unzipSync(writeArchive(files({ "a.txt": "one ".repeat(500), "b/c.json": "{}" })));
    expect(Object.entries(unpacked).map(([name, bytes]) => [name, strFromU8(bytes).length])).toEqual([
      ["a.txt", 2000],
      ["b/c.json", 2],
    ]);
  });
});

describe("what is not unpacked", () => {
  const twoOf = (bytes: Uint8Array) => {
    // "a" and "b" become two files with one name, in the directory and before the files themselves.
    const copy = Buffer.from(bytes);
    for (let at = copy.indexOf("b.txt"); at !== -1; at = copy.indexOf("b.txt", at + 1)) copy[at] = 0x61;
    return copy;
  };
  const many = Object.fromEntries(Array.from({ length: 21 }, (_, index) => [`${index}.txt`, "x"]));

  test.each([
    ["bytes that are no archive", strToU8("Dear Clara"), { kind: "broken" }],
    ["half an archive", writeArchive(files({ "a.txt": "one" })).subarray(0, 60), { kind: "broken" }],
    ["two files of one name", twoOf(writeArchive(files({ "a.txt": "1", "b.txt": "2" }))), { kind: "broken" }],
    ["too many files", writeArchive(files(many)), { kind: "unsafe", reason: "too-many-entries" }],
    [
      "too much in one file",
      zipSync({ "a.txt": new Uint8Array(200_001) }, { level: 0 }),
      { kind: "unsafe", reason: "too-large" },
    ],
    [
      "too much in all files together",
      zipSync({ "a.txt": new Uint8Array(160_000), "b.txt": new Uint8Array(160_000) }, { level: 0 }),
      { kind: "unsafe", reason: "too-large" },
    ],
    [
      "next to nothing that becomes very much",
      zipSync({ "a.txt": new Uint8Array(199_000) }),
      { kind: "unsafe", reason: "ratio" },
    ],
  ])("%s", (_name, bytes, problem) => expect(read(bytes)).toEqual({ ok: false, problem }));

  test("folders are passed over", () => {
    const unpacked = read(zipSync({ folder: { "a.txt": strToU8("one") }, empty: {} }));
    expect(unpacked.ok && [...unpacked.value.keys()]).toEqual(["folder/a.txt"]);
  });
});
