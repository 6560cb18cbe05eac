import { failure, type Result, success } from "@/lib/score/result";
import { readArchive } from "@/lib/zip/read-archive";
import { isZip } from "@/lib/zip/unpack-entry";
import { frozenContentSchema } from "../edition-content";
import { contentName, manifestName, recordName, sourceNames } from "./archive-entries";
import { archiveLimits } from "./archive-limits";
import type { ArchiveProblem } from "./archive-problem";
import { type ArchiveManifest, editionRecordSchema, manifestSchema } from "./archive-schemas";
import type { ArchivedEdition, ArchivedSource, EditionArchive } from "./edition-archive";
import { readJsonEntry } from "./read-json-entry";

/** What was read, not yet checked: `checkEditionArchive` says whether it is what was exported. */
export interface ReadArchive {
  readonly archive: EditionArchive;
  readonly manifest: ArchiveManifest;
  /** Every file of the archive, by its name. */
  readonly files: ReadonlyMap<string, Uint8Array>;
}

/**
 * Reads an exported edition within limits. Nothing is believed yet but that it has the right shape: hashes and the
 * chain are for `checkEditionArchive`.
 */
export function readEditionArchive(bytes: Uint8Array): Result<ReadArchive, ArchiveProblem> {
  if (bytes.length > archiveLimits.fileBytes) {
    return failure({ kind: "file-too-large", byteLength: bytes.length });
  }
  if (!isZip(bytes)) return failure({ kind: "not-an-archive" });
  const unpacked = readArchive(bytes, archiveLimits);
  if (!unpacked.ok) return failure({ kind: "not-unpacked", problem: unpacked.problem });
  return readEditionFiles(unpacked.value);
}

/** The same from the files of an archive. */
export function readEditionFiles(files: ReadArchive["files"]): Result<ReadArchive, ArchiveProblem> {
  const manifest = readJsonEntry(files, manifestName, manifestSchema, archiveLimits.jsonBytes);
  if (!manifest.ok) return manifest;
  const editions = readEditions(files, manifest.value.edition.number);
  if (!editions.ok) return editions;
  const { piece, rendererVersion } = manifest.value;
  const sources = manifest.value.sources.flatMap((source) => findSource(files, source));
  const archive = { piece, rendererVersion, editions: editions.value, sources };
  return success({ archive, manifest: manifest.value, files });
}

type Files = ReadArchive["files"];

function readEditions(files: Files, count: number): Result<ArchivedEdition[], ArchiveProblem> {
  const editions: ArchivedEdition[] = [];
  for (let number = 1; number <= count; number += 1) {
    const content = readJsonEntry(files, contentName(number), frozenContentSchema, archiveLimits.jsonBytes);
    if (!content.ok) return content;
    const read = readJsonEntry(files, recordName(number), editionRecordSchema, archiveLimits.jsonBytes);
    if (!read.ok) return read;
    const { schema: _schema, ...record } = read.value;
    editions.push({ ...record, content: content.value });
  }
  return success(editions);
}

/** A source that the list names and the archive has. */
function findSource(files: Files, named: ArchiveManifest["sources"][number]): ArchivedSource[] {
  const bytes = sourceNames(named.hash).flatMap((name) => files.get(name) ?? []);
  return bytes[0] ? [{ ...named, bytes: bytes[0] }] : [];
}
