import { Inflate } from "fflate";
import type { Notice } from "@/lib/score/notice";
import { failure, type Result, success } from "@/lib/score/result";
import { crc32 } from "./crc32";
import { decodeText } from "./decode-text";
import { readLimits } from "./limits";
import { parseXml } from "./parse-xml";
import type { ReadProblem } from "./read-problem";
import { child, childrenNamed } from "./xml-tree";
import { readZipDirectory, type ZipEntry, zippedBytes } from "./zip-directory";

const containerPath = "META-INF/container.xml";
const musicXmlType = "application/vnd.recordare.musicxml";

/** True when the bytes start as a ZIP archive does. */
export function isContainer(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b && (bytes[2] === 3 || bytes[2] === 5);
}

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
  const unsafe = findUnsafe(entries);
  if (unsafe !== null) return failure(unsafe);
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

function findUnsafe(entries: readonly ZipEntry[]): ReadProblem | null {
  if (entries.length > readLimits.containerEntries) {
    return { kind: "container-unsafe", reason: "too-many-entries" };
  }
  const total = entries.reduce((sum, { size }) => sum + size, 0);
  return total > readLimits.containerBytes ? { kind: "container-unsafe", reason: "too-large" } : null;
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
  if (entry.isEncrypted) return failure({ kind: "container-encrypted" });
  if (entry.size > readLimits.textBytes) return failure({ kind: "container-unsafe", reason: "too-large" });
  const isLarge = entry.size > readLimits.ratioFreeBytes;
  if (isLarge && entry.size > entry.zippedSize * readLimits.containerRatio) {
    return failure({ kind: "container-unsafe", reason: "ratio" });
  }
  const zipped = zippedBytes(bytes, entry);
  if (zipped === null || (entry.method !== 0 && entry.method !== 8)) {
    return failure({ kind: "container-broken" });
  }
  return entry.method === 0 ? checked(zipped, entry) : inflate(zipped, entry);
}

/** Stops as soon as more comes out than the directory says. */
function inflate(zipped: Uint8Array, entry: ZipEntry): Result<Uint8Array, ReadProblem> {
  const out = new Uint8Array(entry.size);
  let length = 0;
  let isTooMuch = false;
  const inflater = new Inflate((chunk) => {
    isTooMuch ||= length + chunk.length > out.length;
    if (!isTooMuch) out.set(chunk, length);
    length += chunk.length;
  });
  try {
    for (let at = 0; at < zipped.length && !isTooMuch; at += inflateStep) {
      inflater.push(zipped.subarray(at, at + inflateStep), at + inflateStep >= zipped.length);
    }
  } catch {
    return failure({ kind: "container-broken" });
  }
  if (isTooMuch) return failure({ kind: "container-unsafe", reason: "false-size" });
  return checked(out.subarray(0, length), entry);
}

/** Zipped bytes at a time: deflate makes at most about 1,000 bytes of one. */
const inflateStep = 16_384;

function checked(unpacked: Uint8Array, entry: ZipEntry): Result<Uint8Array, ReadProblem> {
  const isWhole = unpacked.length === entry.size && crc32(unpacked) === entry.crc32;
  return isWhole ? success(unpacked) : failure({ kind: "container-broken" });
}
