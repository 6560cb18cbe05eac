import { Inflate } from "fflate";
import { failure, type Result, success } from "@/lib/score/result";
import { crc32 } from "./crc32";
import { type ZipEntry, zippedBytes } from "./zip-directory";
import type { ZipLimits } from "./zip-limits";
import type { ZipProblem } from "./zip-problem";

/** True when the bytes start as a ZIP archive does. */
export function isZip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b && (bytes[2] === 3 || bytes[2] === 5);
}

/** What is wrong with an archive before anything of it is unpacked; null when nothing is. */
export function findUnsafe(
  entries: readonly ZipEntry[],
  limits: Pick<ZipLimits, "entries" | "totalBytes">,
): ZipProblem | null {
  if (entries.length > limits.entries) return { kind: "unsafe", reason: "too-many-entries" };
  const total = entries.reduce((sum, { size }) => sum + size, 0);
  return total > limits.totalBytes ? { kind: "unsafe", reason: "too-large" } : null;
}

/** One file of an archive, in memory, within the limits; what the directory says of size and check sum must hold. */
export function unpackEntry(
  bytes: Uint8Array,
  entry: ZipEntry,
  limits: Pick<ZipLimits, "entryBytes" | "ratio" | "ratioFreeBytes">,
): Result<Uint8Array, ZipProblem> {
  if (entry.isEncrypted) return failure({ kind: "encrypted" });
  if (entry.size > limits.entryBytes) return failure({ kind: "unsafe", reason: "too-large" });
  const isLarge = entry.size > limits.ratioFreeBytes;
  if (isLarge && entry.size > entry.zippedSize * limits.ratio) {
    return failure({ kind: "unsafe", reason: "ratio" });
  }
  const zipped = zippedBytes(bytes, entry);
  if (zipped === null || (entry.method !== 0 && entry.method !== 8)) return failure({ kind: "broken" });
  return entry.method === 0 ? checked(zipped, entry) : inflate(zipped, entry);
}

/** Stops as soon as more comes out than the directory says. */
function inflate(zipped: Uint8Array, entry: ZipEntry): Result<Uint8Array, ZipProblem> {
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
    return failure({ kind: "broken" });
  }
  if (isTooMuch) return failure({ kind: "unsafe", reason: "false-size" });
  return checked(out.subarray(0, length), entry);
}

/** Zipped bytes at a time: deflate makes at most about 1,000 bytes of one. */
const inflateStep = 16_384;

function checked(unpacked: Uint8Array, entry: ZipEntry): Result<Uint8Array, ZipProblem> {
  const isWhole = unpacked.length === entry.size && crc32(unpacked) === entry.crc32;
  return isWhole ? success(unpacked) : failure({ kind: "broken" });
}
