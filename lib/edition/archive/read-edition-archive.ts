import type { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import { readArchive } from "@/lib/zip/read-archive";
import { isZip } from "@/lib/zip/unpack-entry";
import { frozenContentSchema } from "../edition-content";
import { contentName, manifestName, recordName, sourceNames } from "./archive-entries";
import { archiveLimits } from "./archive-limits";
import type { ArchiveProblem } from "./archive-problem";
import { type ArchiveManifest, editionRecordSchema, manifestSchema } from "./archive-schemas";
import type { ArchivedEdition, ArchivedSource, EditionArchive } from "./edition-archive";

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
  const files = unpacked.value;
  const manifest = readJson(files, manifestName, manifestSchema);
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
    const content = readJson(files, contentName(number), frozenContentSchema);
    if (!content.ok) return content;
    const read = readJson(files, recordName(number), editionRecordSchema);
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

function readJson<Schema extends z.ZodType>(
  files: Files,
  name: string,
  schema: Schema,
): Result<z.infer<Schema>, ArchiveProblem> {
  const bytes = files.get(name);
  if (!bytes) return failure({ kind: "file-missing", name });
  const unreadable = (fault: string) => failure({ kind: "file-unreadable" as const, name, fault });
  if (bytes.length > archiveLimits.jsonBytes) return unreadable("it is too large");
  const json = parseJson(bytes);
  if (json === undefined) return unreadable("it is no JSON in UTF-8");
  const parsed = schema.safeParse(json);
  if (parsed.success) return success(parsed.data);
  const [issue] = parsed.error.issues;
  return unreadable(issue ? [...issue.path.map(String), issue.message].join(": ") : "another shape");
}

/** Undefined, which no JSON is, for any other bytes. */
function parseJson(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes));
  } catch {
    return undefined;
  }
}
