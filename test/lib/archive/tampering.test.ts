import { strFromU8, strToU8 } from "fflate";
import { beforeAll, describe, expect, test } from "vitest";
import { checkPieceArchive } from "@/lib/archive/check-piece-archive";
import { hashPiece, listEntries, pieceEntries } from "@/lib/archive/piece-entries";
import { readPieceFiles } from "@/lib/archive/read-piece-archive";
import { sealOf } from "@/lib/archive/seal";
import { hashBytes } from "@/lib/edition/archive/archive-entries";
import { sayArchiveProblem } from "@/lib/edition/archive/archive-problem";
import { canonicalJson, type JsonValue } from "@/lib/edition/canonical-json";
import { alterations } from "@/test/builders/alter-json";
import { buildFullPiece } from "@/test/builders/build-piece-archive";

type Files = Map<string, Uint8Array>;

let entries: Files;
beforeAll(() => {
  entries = pieceEntries(buildFullPiece());
});

/** What is said about an archive of these files; nothing when nothing is wrong with it. */
function faultsOf(files: Files): string[] {
  const read = readPieceFiles(files);
  if (!read.ok) return read.problem.map((problem) => sayArchiveProblem(problem, "piece"));
  return checkPieceArchive(read.value).flatMap(({ holds, sentences }) => (holds ? [] : sentences));
}

const json = (files: Files, name: string): JsonValue => JSON.parse(strFromU8(files.get(name)!));
const write = (files: Files, name: string, value: JsonValue) =>
  files.set(name, strToU8(canonicalJson(value)));

/** As somebody would who lists again what they changed, and, when they are cleverer, seals the list again. */
function list(files: Files, { isSealed }: { isSealed: boolean }): void {
  const manifest = json(files, "manifest.json") as { seal: string };
  const others = new Map([...files].filter(([name]) => name !== "manifest.json"));
  const changed = { ...manifest, entries: listEntries(others) };
  write(files, "manifest.json", {
    ...changed,
    seal: isSealed ? sealOf(changed) : manifest.seal,
  } as JsonValue);
}

const tamperers: Readonly<Record<string, (files: Files) => void>> = {
  "who changes it": () => {},
  "who lists it anew": (files) => list(files, { isSealed: false }),
  "who lists and seals it anew": (files) => list(files, { isSealed: true }),
};

/** For every file its alterations: every leaf of JSON, or a byte of what is none. */
function* changesOf(name: string): Generator<Uint8Array> {
  const bytes = entries.get(name)!;
  if (name.endsWith(".json")) {
    // The schemas are ours and thousands of leaves: some of them stand for all.
    const step = name.startsWith("schemas/") ? 12 : 1;
    let index = 0;
    for (const other of alterations(json(entries, name))) {
      if (index % step === 0) yield strToU8(canonicalJson(other));
      index += 1;
    }
  }
  const flipped = bytes.slice();
  flipped[Math.floor(bytes.length / 2)]! ^= 1;
  yield flipped;
}

// Some thousand archives are looked into: a limit for what hangs, not a measure.
describe.each(Object.entries(tamperers))("somebody %s", { timeout: 600_000 }, (_who, cover) => {
  test("is found out in every single field of every file, and the file is named", () => {
    let tried = 0;
    const unnoticed: string[] = [];
    for (const name of entries.keys()) {
      // Whoever seals a manifest anew after changing it does what they do to every other file.
      for (const bytes of changesOf(name)) {
        const files = new Map(entries).set(name, bytes);
        if (name !== "manifest.json") cover(files);
        tried += 1;
        const faults = faultsOf(files);
        if (
          !faults.join(" ").includes(name.split("/").at(-1)!.replace(/[.].*/, "")) &&
          !namesWhat(name, faults)
        )
          unnoticed.push(`${name}: ${strFromU8(bytes).slice(0, 120)} ${faults}`);
      }
    }
    expect(tried).toBeGreaterThan(500);
    expect(unnoticed.slice(0, 5)).toEqual([]);
  });
});

/** Of an edition its number is told, and of a source its name. */
function namesWhat(name: string, faults: readonly string[]): boolean {
  return faults.some((fault) =>
    name.startsWith("editions/")
      ? fault.includes("№")
      : name.startsWith("sources/") && fault.includes("source"),
  );
}

describe("somebody who writes the hash of the piece anew too", () => {
  /** Everything but what only the two players can make: hashes of what they agreed to. */
  const cover = (files: Files) => {
    const others = [...files].filter(([name]) => name !== "manifest.json" && name !== "piece.json");
    const piece = json(files, "piece.json") as { files: object; hash: string };
    const hashes = Object.fromEntries(others.map(([name, bytes]) => [name, hashBytes(bytes)]));
    const changed = { ...piece, files: hashes };
    const hash = hashPiece(changed as never);
    write(files, "piece.json", { ...changed, hash } as JsonValue);
    write(files, "manifest.json", { ...(json(files, "manifest.json") as object), hash } as JsonValue);
    list(files, { isSealed: true });
  };

  test.each([
    ["editions/1/content.json", /№ 1 is not what was agreed to/],
    ["proposals.json", /proposals\.json/],
  ])("changes no terms in %s unnoticed", (name, told) => {
    const terms = (value: JsonValue): JsonValue[] =>
      name === "proposals.json"
        ? alterTerms(value as { proposals: { terms: JsonValue }[] })
        : [...alterations(value)];
    const unnoticed = terms(json(entries, name)).filter((value) => {
      const files = new Map(entries);
      write(files, name, value);
      cover(files);
      return !faultsOf(files).some((fault) => told.test(fault) || fault.includes(name));
    });
    expect(unnoticed).toEqual([]);
  });

  function alterTerms(value: { proposals: { terms: JsonValue }[] }): JsonValue[] {
    return value.proposals.flatMap((proposal, index) =>
      [...alterations(proposal.terms)].map(
        (terms) =>
          ({ ...value, proposals: value.proposals.toSpliced(index, 1, { ...proposal, terms }) }) as JsonValue,
      ),
    );
  }

  test("cannot break the chain, or approve for another", () => {
    for (const change of [
      (record: { previousHash: string | null; hash: string }) => ({ ...record, previousHash: record.hash }),
      (record: { approvals: { hash: string }[] }) => ({
        ...record,
        approvals: record.approvals.map((one) => ({ ...one, hash: "0".repeat(64) })),
      }),
      (record: { approvals: { by: string }[] }) => ({
        ...record,
        approvals: record.approvals.map((one) => ({ ...one, by: "p99" })),
      }),
    ]) {
      const files = new Map(entries);
      const name = "editions/1/record.json";
      write(files, name, change(json(files, name) as never) as JsonValue);
      cover(files);
      expect(faultsOf(files)).not.toEqual([]);
    }
  });
});

test("a list of files that names another piece, sealed anew, is found", () => {
  for (const change of [{ title: "Another" }, { hash: "0".repeat(64) }]) {
    const files = new Map(entries);
    write(files, "manifest.json", { ...(json(files, "manifest.json") as object), ...change } as never);
    list(files, { isSealed: true });
    expect(faultsOf(files)).toEqual([
      "The list of files (manifest.json) names another piece than piece.json.",
    ]);
  }
});

test.each(["README.txt", "proposals.json", "piece.json", "schemas/room.schema.json"])(
  "%s taken away or under another name is found",
  (name) => {
    const gone = new Map(entries);
    gone.delete(name);
    expect(faultsOf(gone).join(" ")).toContain(name);
    const renamed = new Map(gone).set(`${name}x`, entries.get(name)!);
    expect(faultsOf(renamed).join(" ")).toContain(name);
  },
);
