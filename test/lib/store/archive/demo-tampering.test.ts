import { strFromU8, strToU8, unzipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { checkPieceArchive } from "@/lib/archive/check-piece-archive";
import { readPieceFiles } from "@/lib/archive/read-piece-archive";
import { checkEditionArchive } from "@/lib/edition/archive/check-edition-archive";
import { readEditionFiles } from "@/lib/edition/archive/read-edition-archive";
import { canonicalJson, type JsonValue } from "@/lib/edition/canonical-json";
import { exportPiece } from "@/lib/store/archive/export-piece";
import { signIn } from "@/lib/store/auth/sign-in";
import { exportEdition } from "@/lib/store/editions/export-edition";
import { listPieces } from "@/lib/store/pieces/list-pieces";
import { loadDemo } from "@/seed/load-demo";
import { alterations } from "@/test/builders/alter-json";
import { openStore, valued } from "../duo";

// Some thousand times every file but one is the very same array: its hash is remembered, or this would take an hour.
vi.mock("@/lib/edition/archive/archive-entries", async (original) => {
  const real = await original<typeof import("@/lib/edition/archive/archive-entries")>();
  const known = new WeakMap<Uint8Array, string>();
  const hashBytes = (bytes: Uint8Array) => {
    const hash = known.get(bytes) ?? real.hashBytes(bytes);
    known.set(bytes, hash);
    return hash;
  };
  return { ...real, hashBytes };
});

type Files = ReadonlyMap<string, Uint8Array>;

const isWholePiece = (files: Files): boolean => {
  const read = readPieceFiles(files);
  return read.ok && checkPieceArchive(read.value).every(({ holds }) => holds);
};

const isWholeEdition = (files: Files): boolean => {
  const read = readEditionFiles(files);
  return read.ok && checkEditionArchive(read.value).every(({ holds }) => holds);
};

let store: Awaited<ReturnType<typeof openStore>>;
let piece: Files;
let edition: Files;

beforeAll(async () => {
  store = await openStore();
  const password = "a password for the demo";
  await loadDemo(password);
  const nerys = valued(await signIn({ email: "nerys@example.org", password }, "192.0.2.7"));
  const pieceId = (await listPieces(nerys))[0]?.id ?? "";
  const filesOf = (bytes: Uint8Array) => new Map(Object.entries(unzipSync(bytes)));
  piece = filesOf(valued(await exportPiece(nerys, pieceId, { withPages: true })).bytes);
  edition = filesOf(valued(await exportEdition(nerys, pieceId, 1, "engraver")).bytes);
}, 240_000);
afterAll(() => store.close());

/** How much was altered, one thing at a time, and what of it went unnoticed. */
function tamperWith(files: Files, isWhole: (files: Files) => boolean) {
  const tried: Record<string, number> = {};
  const unnoticed: string[] = [];
  for (const [name, bytes] of files) {
    for (const other of altered(name, bytes)) {
      tried[name] = (tried[name] ?? 0) + 1;
      if (isWhole(new Map(files).set(name, other)))
        unnoticed.push(`${name}: ${strFromU8(other).slice(0, 200)}`);
    }
  }
  return { tried, unnoticed };
}

function* altered(name: string, bytes: Uint8Array): Generator<Uint8Array> {
  const flipped = bytes.slice();
  flipped[Math.floor(bytes.length / 2)]! ^= 1;
  yield flipped;
  if (!name.endsWith(".json")) return;
  for (const other of alterations(JSON.parse(strFromU8(bytes)) as JsonValue))
    yield strToU8(canonicalJson(other));
}

describe("the demo as it is taken along", { timeout: 600_000 }, () => {
  test("is whole", () => {
    expect([isWholePiece(piece), isWholeEdition(edition)]).toEqual([true, true]);
  });

  test("shows every single field that was altered in the piece", () => {
    const { tried, unnoticed } = tamperWith(piece, isWholePiece);
    expect(unnoticed).toEqual([]);
    for (const name of ["room.json", "trail.json", "proposals.json", "editions/1/content.json"])
      expect(tried[name]).toBeGreaterThan(20);
  });

  test("shows every single field that was altered in its edition", () => {
    const { tried, unnoticed } = tamperWith(edition, isWholeEdition);
    expect(unnoticed).toEqual([]);
    expect(tried["editions/1/record.json"]).toBeGreaterThan(10);
  });
});
