import { sha256 } from "@noble/hashes/sha2";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils";
import { z } from "zod";
import { isZip } from "@/lib/zip/unpack-entry";
import { canonicalJson, type JsonValue } from "../canonical-json";
import { contentV1Schema, editionContentSchema, writeEditionContent } from "../edition-content";
import { hashTerms } from "../hash-terms";
import { archiveReadme } from "./archive-readme";
import { type ArchiveManifest, editionRecordSchema, manifestSchema } from "./archive-schemas";
import type { ArchivedEdition, ArchivedSource, EditionArchive } from "./edition-archive";

export const manifestName = "manifest.json";
export const contentName = (number: number) => `editions/${number}/content.json`;
export const recordName = (number: number) => `editions/${number}/record.json`;
/** A source by its hash: both names under which it may stand. */
export const sourceNames = (hash: string) => [`sources/${hash}.musicxml`, `sources/${hash}.mxl`] as const;

/** SHA-256 of bytes, in lower-case hexadecimal. */
export const hashBytes = (bytes: Uint8Array) => bytesToHex(sha256(bytes));

/** The seal of a manifest: SHA-256 of its canonical JSON without the seal. */
export function sealOf({
  seal: _seal,
  ...manifest
}: Omit<ArchiveManifest, "seal"> & { seal?: string }): string {
  return hashTerms(manifest);
}

/** Every file of an exported edition, by its name. @throws RangeError without an edition. */
export function archiveEntries(archive: EditionArchive): Map<string, Uint8Array> {
  const files = new Map<string, Uint8Array>([
    ["README.txt", utf8ToBytes(archiveReadme(archive))],
    ...schemas.map(
      ([name, schema]) => [`schemas/${name}.schema.json`, json(z.toJSONSchema(schema))] as const,
    ),
    ...archive.editions.flatMap(editionEntries),
    ...archive.sources.map((source) => [nameOfSource(source), source.bytes] as const),
  ]);
  return files.set(manifestName, json(manifestOf(archive, files)));
}

const schemas = [
  ["content", z.union([contentV1Schema, editionContentSchema])],
  ["manifest", manifestSchema],
  ["record", editionRecordSchema],
] as const;

function editionEntries({ content, ...record }: ArchivedEdition): [name: string, bytes: Uint8Array][] {
  return [
    [contentName(record.number), utf8ToBytes(writeEditionContent(content))],
    [recordName(record.number), json({ schema: 1, ...record })],
  ];
}

function nameOfSource({ hash, bytes }: ArchivedSource): string {
  const [plain, packed] = sourceNames(hash);
  return isZip(bytes) ? packed : plain;
}

function manifestOf(archive: EditionArchive, files: ReadonlyMap<string, Uint8Array>): ArchiveManifest {
  const last = archive.editions.at(-1);
  if (!last) throw new RangeError("An archive of no edition");
  const manifest = {
    ...{ schema: 1 as const, kind: "performing edition" as const, piece: archive.piece },
    edition: { number: last.number, hash: last.hash },
    rendererVersion: archive.rendererVersion,
    sources: archive.sources
      .map(({ hash, fileName }) => ({ hash, fileName }))
      .sort((a, b) => compareNames(a.hash, b.hash)),
    entries: [...files]
      .map(([name, bytes]) => ({ name, byteLength: bytes.length, sha256: hashBytes(bytes) }))
      .sort((a, b) => compareNames(a.name, b.name)),
  };
  return { ...manifest, seal: sealOf(manifest) };
}

/** UTF-16 code units, as in an archive. */
const compareNames = (a: string, b: string) => Number(a > b) - Number(a < b);

/** A schema of zod's is JSON, which its type does not say. */
const json = (value: object) => utf8ToBytes(canonicalJson(value as JsonValue));
