import { utf8ToBytes } from "@noble/hashes/utils";
import { z } from "zod";
import {
  contentName,
  hashBytes,
  manifestName,
  recordName,
  sourceNames,
} from "@/lib/edition/archive/archive-entries";
import { canonicalJson, type JsonValue } from "@/lib/edition/canonical-json";
import { contentV1Schema, editionContentSchema, writeEditionContent } from "@/lib/edition/edition-content";
import { hashTerms } from "@/lib/edition/hash-terms";
import { isZip } from "@/lib/zip/unpack-entry";
import {
  archivedApprovalsSchema,
  archivedHintsSchema,
  archivedNeedsSchema,
  archivedPerformancesSchema,
  archivedProposalsSchema,
  archivedRewritesSchema,
  archivedTrailSchema,
  pieceEditionSchema,
} from "./decision-schemas";
import type { PieceArchive, PieceEdition } from "./piece-archive";
import { pieceReadme } from "./piece-readme";
import {
  type ArchivedPieceFile,
  archivedPieceSchema,
  type PieceManifest,
  pieceManifestSchema,
} from "./piece-schemas";
import { archivedRoomSchema } from "./room-schema";
import { sealOf } from "./seal";

export const pieceName = "piece.json";
export const musicXmlName = (number: number) => `editions/${number}/played.musicxml`;

/** The lists of a piece, each in a file of its own. */
export const listFiles = {
  proposals: { name: "proposals.json", schema: archivedProposalsSchema },
  approvals: { name: "approvals.json", schema: archivedApprovalsSchema },
  needs: { name: "rest-needs.json", schema: archivedNeedsSchema },
  performances: { name: "performances.json", schema: archivedPerformancesSchema },
  rewrites: { name: "rewrites.json", schema: archivedRewritesSchema },
  hints: { name: "cue-hints.json", schema: archivedHintsSchema },
  trail: { name: "trail.json", schema: archivedTrailSchema },
  room: { name: "room.json", schema: archivedRoomSchema },
} as const;

const schemas = [
  ["content", z.union([contentV1Schema, editionContentSchema])],
  ["record", pieceEditionSchema],
  ["piece", archivedPieceSchema],
  ["manifest", pieceManifestSchema],
  ...Object.values(listFiles).map(({ name, schema }) => [name.replace(".json", ""), schema] as const),
] as const;

/** The hash of a piece: SHA-256 of the canonical JSON of piece.json without the hash itself. */
export function hashPiece({
  hash: _hash,
  ...piece
}: Omit<ArchivedPieceFile, "hash"> & { hash?: string }): string {
  return hashTerms(piece as JsonValue);
}

/** Every file of a piece that is taken along, by its name. */
export function pieceEntries(archive: PieceArchive): Map<string, Uint8Array> {
  const { piece, editions } = archive;
  const files = new Map<string, Uint8Array>([
    ["README.txt", utf8ToBytes(pieceReadme(archive))],
    ...schemas.map(
      ([name, schema]) => [`schemas/${name}.schema.json`, json(z.toJSONSchema(schema))] as const,
    ),
    ...listsOf(archive).map(([name, value]) => [name, json(value)] as const),
    ...editions.flatMap(editionEntries),
    ...[...archive.bytes].map(([hash, bytes]) => [nameOfSource(hash, bytes), bytes] as const),
  ]);
  const hashes = Object.fromEntries([...files].map(([name, bytes]) => [name, hashBytes(bytes)]));
  const unsigned = { schema: 1 as const, ...piece, editionCount: editions.length, files: hashes };
  const hash = hashPiece(unsigned);
  files.set(pieceName, json({ ...unsigned, hash }));
  for (const [name, bytes] of archive.pages ?? []) files.set(name, bytes);
  return files.set(manifestName, json(manifestOf({ title: piece.title, hash }, files)));
}

/** The files that hold one list each, as JSON. What archives had not from the start is there only where there is any. */
export function listsOf(archive: PieceArchive): [name: string, value: object][] {
  const { proposals, approvals, needs, performances, trail, room } = archive;
  const { rewriteProposals, rewrites, hints } = archive;
  const hasRewrites = rewriteProposals.length + rewrites.length > 0;
  const asRewrites = { schema: 1, proposals: rewriteProposals, rewrites };
  return [
    ...(hasRewrites ? [[listFiles.rewrites.name, asRewrites] as [string, object]] : []),
    ...(hints.length > 0 ? [[listFiles.hints.name, { schema: 1, hints }] as [string, object]] : []),
    [listFiles.proposals.name, { schema: 1, proposals }],
    [listFiles.approvals.name, { schema: 1, approvals }],
    [listFiles.needs.name, { schema: 1, needs }],
    [listFiles.performances.name, { schema: 1, performances }],
    [listFiles.trail.name, { schema: 1, entries: trail }],
    [listFiles.room.name, { schema: 1, maps: room }],
  ];
}

function editionEntries({ content, musicXml, ...record }: PieceEdition): [string, Uint8Array][] {
  const { number } = record;
  return [
    [contentName(number), utf8ToBytes(writeEditionContent(content))],
    [recordName(number), json({ schema: 1, ...record })],
    [musicXmlName(number), utf8ToBytes(musicXml)],
  ];
}

function nameOfSource(hash: string, bytes: Uint8Array): string {
  const [plain, packed] = sourceNames(hash);
  return isZip(bytes) ? packed : plain;
}

function manifestOf(
  about: { readonly title: string; readonly hash: string },
  files: ReadonlyMap<string, Uint8Array>,
): PieceManifest {
  const manifest = { schema: 1 as const, kind: "piece" as const, ...about, entries: listEntries(files) };
  return { ...manifest, seal: sealOf(manifest) };
}

/** Name, length and SHA-256 of each file, in the order of their names (UTF-16 code units, as in an archive). */
export function listEntries(files: ReadonlyMap<string, Uint8Array>): PieceManifest["entries"] {
  return [...files]
    .map(([name, bytes]) => ({ name, byteLength: bytes.length, sha256: hashBytes(bytes) }))
    .sort((a, b) => Number(a.name > b.name) - Number(a.name < b.name));
}

/** A schema of zod's is JSON, which its type does not say. */
const json = (value: object) => utf8ToBytes(canonicalJson(value as JsonValue));
