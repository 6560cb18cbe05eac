import type { z } from "zod";
import { contentName, manifestName, recordName, sourceNames } from "@/lib/edition/archive/archive-entries";
import { archiveLimits } from "@/lib/edition/archive/archive-limits";
import type { ArchiveProblem } from "@/lib/edition/archive/archive-problem";
import { readJsonEntry } from "@/lib/edition/archive/read-json-entry";
import { frozenContentSchema } from "@/lib/edition/edition-content";
import { failure, type Result, success } from "@/lib/score/result";
import { readArchive } from "@/lib/zip/read-archive";
import { isZip } from "@/lib/zip/unpack-entry";
import { pieceEditionSchema } from "./decision-schemas";
import type { PieceArchive, PieceEdition } from "./piece-archive";
import { listFiles, musicXmlName, pieceName } from "./piece-entries";
import {
  type ArchivedPieceFile,
  archivedPieceSchema,
  type PieceManifest,
  pieceManifestSchema,
} from "./piece-schemas";
import { isPages } from "./printed-pages";

/** Of one file of JSON: the comments of a full room are 20 MB. The figure is ours. */
const mostJsonBytes = 40_000_000;

/** What was read, not yet checked: `checkPieceArchive` says whether it is what was packed. */
export interface ReadPieceArchive {
  readonly archive: PieceArchive;
  readonly manifest: PieceManifest;
  readonly piece: ArchivedPieceFile;
  /** Every file of the archive, by its name. */
  readonly files: ReadonlyMap<string, Uint8Array>;
}

/**
 * Reads a piece that was taken along, within limits. Nothing is believed yet but that every file has the right shape.
 *
 * @returns or everything that cannot be read, one problem a file.
 */
export function readPieceArchive(bytes: Uint8Array): Result<ReadPieceArchive, readonly ArchiveProblem[]> {
  if (bytes.length > archiveLimits.fileBytes)
    return failure([{ kind: "file-too-large", byteLength: bytes.length }]);
  if (!isZip(bytes)) return failure([{ kind: "not-an-archive" }]);
  const unpacked = readArchive(bytes, archiveLimits);
  if (!unpacked.ok) return failure([{ kind: "not-unpacked", problem: unpacked.problem }]);
  return readPieceFiles(unpacked.value);
}

/** The same from the files of an archive. */
export function readPieceFiles(
  files: ReadonlyMap<string, Uint8Array>,
): Result<ReadPieceArchive, readonly ArchiveProblem[]> {
  // Of another kind, or none of ours: then every other file would be missing too.
  if (!files.has(manifestName) && !files.has(pieceName)) return failure([{ kind: "not-an-archive" }]);
  const reader = new FileReader(files);
  const read = readAll(reader);
  return read === null ? failure(reader.problems) : success({ ...read, files });
}

/** Reads one file after the other and remembers what was wrong with each. */
class FileReader {
  readonly problems: ArchiveProblem[] = [];
  constructor(readonly files: ReadonlyMap<string, Uint8Array>) {}

  json<Schema extends z.ZodType>(name: string, schema: Schema): z.infer<Schema> | null {
    const read = readJsonEntry(this.files, name, schema, mostJsonBytes);
    if (read.ok) return read.value;
    this.problems.push(read.problem);
    return null;
  }

  has(name: string): boolean {
    return this.files.has(name);
  }

  text(name: string): string | null {
    const bytes = this.files.get(name);
    if (bytes) return new TextDecoder().decode(bytes);
    this.problems.push({ kind: "file-missing", name });
    return null;
  }
}

function readAll(reader: FileReader): Omit<ReadPieceArchive, "files"> | null {
  const manifest = reader.json(manifestName, pieceManifestSchema);
  const piece = reader.json(pieceName, archivedPieceSchema);
  const lists = readLists(reader);
  const editions = readEditions(reader, piece?.editionCount ?? 0);
  if (manifest === null || piece === null || lists === null || editions === null) return null;
  const { schema: _schema, files: _files, hash: _hash, editionCount: _count, ...about } = piece;
  const pages = new Map([...reader.files].filter(([name]) => isPages(name)));
  const archive = {
    ...{ piece: about, bytes: findSources(reader.files, piece), ...lists, editions },
    ...(pages.size > 0 && { pages }),
  };
  return { archive, manifest, piece };
}

const noRewrites = { proposals: [], rewrites: [] };
const noHints = { hints: [] };

function readLists(reader: FileReader): Omit<PieceArchive, "piece" | "bytes" | "editions" | "pages"> | null {
  const read = <Schema extends z.ZodType>({ name, schema }: { name: string; schema: Schema }) =>
    reader.json(name, schema);
  const proposals = read(listFiles.proposals);
  const approvals = read(listFiles.approvals);
  const needs = read(listFiles.needs);
  const performances = read(listFiles.performances);
  const room = read(listFiles.room);
  const trail = read(listFiles.trail);
  // These two came later, and are left out where there is nothing to write in them.
  const rewrites = reader.has(listFiles.rewrites.name) ? read(listFiles.rewrites) : noRewrites;
  const hints = reader.has(listFiles.hints.name) ? read(listFiles.hints) : noHints;
  if (!proposals || !approvals || !needs || !performances || !room || !trail) return null;
  if (!rewrites || !hints) return null;
  return {
    ...{ rewriteProposals: rewrites.proposals, rewrites: rewrites.rewrites, hints: hints.hints },
    ...{ proposals: proposals.proposals, approvals: approvals.approvals, needs: needs.needs },
    ...{ performances: performances.performances, room: room.maps, trail: trail.entries },
  };
}

function readEditions(reader: FileReader, count: number): PieceEdition[] | null {
  const editions: PieceEdition[] = [];
  for (let number = 1; number <= count; number += 1) {
    const content = reader.json(contentName(number), frozenContentSchema);
    const read = reader.json(recordName(number), pieceEditionSchema);
    const musicXml = reader.text(musicXmlName(number));
    if (content === null || read === null || musicXml === null) continue;
    const { schema: _schema, ...record } = read;
    editions.push({ ...record, content, musicXml });
  }
  return editions.length === count ? editions : null;
}

/** The sources that the piece names and the archive has. */
function findSources(
  files: ReadonlyMap<string, Uint8Array>,
  piece: ArchivedPieceFile,
): PieceArchive["bytes"] {
  const found = piece.sources.flatMap(({ hash }) => {
    const [bytes] = sourceNames(hash).flatMap((name) => files.get(name) ?? []);
    return bytes ? [[hash, bytes] as const] : [];
  });
  return new Map(found);
}
