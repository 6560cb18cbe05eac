import { failure, type Result, success } from "@/lib/score/result";
import { findUnsafe, unpackEntry } from "./unpack-entry";
import { readZipDirectory } from "./zip-directory";
import type { ZipLimits } from "./zip-limits";
import type { ZipProblem } from "./zip-problem";

/**
 * Every file of an archive by its name, in memory, within the limits. Names are compared and never used as paths;
 * folders are passed over. An archive that names a file twice is broken: which one is meant depends on who reads it.
 */
export function readArchive(
  bytes: Uint8Array,
  limits: ZipLimits,
): Result<ReadonlyMap<string, Uint8Array>, ZipProblem> {
  const entries = readZipDirectory(bytes);
  if (entries === null) return failure({ kind: "broken" });
  const unsafe = findUnsafe(entries, limits);
  if (unsafe) return failure(unsafe);
  const files = new Map<string, Uint8Array>();
  for (const entry of entries) {
    if (entry.name.endsWith("/") && entry.size === 0) continue;
    if (files.has(entry.name)) return failure({ kind: "broken" });
    const unpacked = unpackEntry(bytes, entry, limits);
    if (!unpacked.ok) return unpacked;
    files.set(entry.name, unpacked.value);
  }
  return success(files);
}
