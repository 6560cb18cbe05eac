import fc from "fast-check";
import { strFromU8, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { pieceEntries } from "@/lib/archive/piece-entries";
import { readPieceArchive } from "@/lib/archive/read-piece-archive";
import { writePieceArchive } from "@/lib/archive/write-piece-archive";
import { inspectPiece, listPieceFaults } from "@/lib/inspect/inspect-piece";
import { buildFullPiece, buildPieceArchive, pieceParts } from "@/test/builders/build-piece-archive";

const archive = buildFullPiece();
const entries = pieceEntries(archive);

describe("a piece that is taken along", () => {
  test("holds every kind of thing, and all of it holds", () => {
    const { proposals, needs, performances, editions, trail, room, approvals } = archive;
    for (const list of [proposals, needs, performances, editions, trail, approvals])
      expect(list.length).toBeGreaterThan(0);
    expect([room.comments, room.breaths, room.pencilledCuts].every((list) => list.length > 0)).toBe(true);
    expect(listPieceFaults(inspectPiece(writePieceArchive(archive)))).toEqual([]);
  });

  test("law: written, read and written again it is the same to the byte", () => {
    fc.assert(
      fc.property(pieceParts, (parts) => {
        const bytes = writePieceArchive(buildPieceArchive(parts));
        const read = readPieceArchive(bytes);
        if (!read.ok) throw new Error(JSON.stringify(read.problem));
        expect(Buffer.compare(writePieceArchive(read.value.archive), bytes)).toBe(0);
      }),
      { numRuns: 50 },
    );
  });

  test("says in every file of it what the file has to look like", () => {
    const schemas = [...entries.keys()].filter((name) => name.startsWith("schemas/"));
    expect(schemas.map((name) => name.slice(8).replace(".schema.json", ""))).toEqual([
      ...["content", "record", "piece", "manifest", "proposals", "approvals", "rest-needs"],
      ...["performances", "rewrites", "cue-hints", "trail", "room"],
    ]);
    for (const name of schemas) {
      const schema = JSON.parse(strFromU8(entries.get(name)!));
      expect(schema.$schema).toBe("https://json-schema.org/draft/2020-12/schema");
    }
  });

  test.each([
    ["a person who is not there", { piece: { ...archive.piece, people: archive.piece.people.slice(1) } }],
    ["no source", { bytes: new Map() }],
    ["a gap in the chain", { editions: archive.editions.slice(1) }],
    [
      "other terms than were answered",
      { proposals: archive.proposals.map((one) => ({ ...one, termsHash: "0".repeat(64) })) },
    ],
  ])("with %s it is not packed", (_name, change) => {
    expect(() => writePieceArchive({ ...archive, ...change })).toThrow(RangeError);
  });

  test("is not what another file is", () => {
    for (const bytes of [
      new Uint8Array(),
      new Uint8Array([1, 2, 3]),
      zipSync({ "a.txt": new Uint8Array(3) }),
    ])
      expect(listPieceFaults(inspectPiece(bytes))).toHaveLength(1);
  });
});
