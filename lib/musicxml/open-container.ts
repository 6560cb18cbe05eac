import type { Notice } from "@/lib/score/notice";
import { failure, type Result, success } from "@/lib/score/result";
import { findUnsafe, unpackEntry } from "@/lib/zip/unpack-entry";
import { readZipDirectory, type ZipEntry } from "@/lib/zip/zip-directory";
import type { ZipLimits } from "@/lib/zip/zip-limits";
import type { ZipProblem } from "@/lib/zip/zip-problem";
import { decodeText } from "./decode-text";
import { readLimits } from "./limits";
import { parseXml } from "./parse-xml";
import type { ReadProblem } from "./read-problem";
import { child, childrenNamed } from "./xml-tree";

const containerPath = "META-INF/container.xml";
const musicXmlType = "application/vnd.recordare.musicxml";

/**
 * The bytes of the score inside an .mxl container (MusicXML 4.0, "Compressed .mxl files"): the file that
 * META-INF/container.xml names, or, when it is missing or names none, the only XML file in the container.
 *
 * Only these two files are ever unpacked, in memory, within `readLimits`; entry names are compared and never used as
 * paths; what the directory says of sizes and check sums must hold.
 */
export function openContainer(
  bytes: Uint8Array,
): Result<{ readonly score: Uint8Array; readonly notices: readonly Notice[] }, ReadProblem> {
  const entries = readZipDirectory(bytes);
  if (entries === null) return failure({ kind: "container-broken" });
  const unsafe = findUnsafe(entries, limits);
  if (unsafe !== null) return failure(inContainer(unsafe));
  const named = findNamedScore(bytes, entries);
  if (!named.ok) return named;
  const entry = named.value === null ? null : entryNamed(entries, named.value);
  if (entry !== null) return unpackScore(bytes, entry, []);
  const only = findOnlyScore(entries);
  if (only === null) return failure({ kind: "container-without-score", path: named.value });
  return unpackScore(bytes, only, [unnamedScoreNotice(only.name)]);
}

function unpackScore(bytes: Uint8Array, entry: ZipEntry, notices: readonly Notice[]) {
  const unpacked = unpack(bytes, entry);
  return unpacked.ok ? success({ score: unpacked.value, notices }) : unpacked;
}

function entryNamed(entries: readonly ZipEntry[], name: string): ZipEntry | null {
  return entries.find((entry) => entry.name === name) ?? null;
}

/** The path that container.xml gives; null when there is no such file or it names no score. */
function findNamedScore(bytes: Uint8Array, entries: readonly ZipEntry[]): Result<string | null, ReadProblem> {
  const entry = entryNamed(entries, containerPath);
  if (entry === null) return success(null);
  const unpacked = unpack(bytes, entry);
  if (!unpacked.ok) return unpacked;
  const text = decodeText(unpacked.value);
  if (!text.ok) return success(null);
  const parsed = parseXml(text.value.text, { keepBlankText: false });
  if (!parsed.ok) return parsed.problem.kind === "declarations-refused" ? parsed : success(null);
  const list = child(parsed.value.root, "rootfiles");
  const files = list === null ? [] : childrenNamed(list, "rootfile");
  const file =
    files.find(({ attributes }) => (attributes["media-type"] ?? musicXmlType).startsWith(musicXmlType)) ??
    files[0];
  return success(file?.attributes["full-path"] ?? null);
}

function findOnlyScore(entries: readonly ZipEntry[]): ZipEntry | null {
  const scores = entries.filter(({ name }) => /^(?!META-INF\/|\/)(?!.*\.\.).*\.(musicxml|xml)$/i.test(name));
  return scores.length === 1 ? (scores[0] ?? null) : null;
}

function unnamedScoreNotice(name: string): Notice {
  return {
    kind: "container-without-list",
    sentence: `The compressed file does not say which file in it is the score; its only XML file, “${name.slice(0, 60)}”, was read.`,
    partName: null,
    barLabel: null,
  };
}

function unpack(bytes: Uint8Array, entry: ZipEntry): Result<Uint8Array, ReadProblem> {
  const unpacked = unpackEntry(bytes, entry, limits);
  return unpacked.ok ? unpacked : failure(inContainer(unpacked.problem));
}

const limits = {
  entries: readLimits.containerEntries,
  totalBytes: readLimits.containerBytes,
  entryBytes: readLimits.textBytes,
  ratio: readLimits.containerRatio,
  ratioFreeBytes: readLimits.ratioFreeBytes,
} as const satisfies ZipLimits;

function inContainer(problem: ZipProblem): ReadProblem {
  if (problem.kind === "unsafe") return { kind: "container-unsafe", reason: problem.reason };
  return { kind: problem.kind === "encrypted" ? "container-encrypted" : "container-broken" };
}
