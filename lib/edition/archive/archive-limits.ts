import type { ZipLimits } from "@/lib/zip/zip-limits";

/**
 * How much of an exported edition is taken in: a source may be as large as one that is uploaded, and hundreds of
 * editions may stand before the one exported. The figures are ours.
 */
export const archiveLimits = {
  /** Of the file as it was sent. */
  fileBytes: 256_000_000,
  entries: 2_000,
  totalBytes: 256_000_000,
  entryBytes: 64_000_000,
  /** As for compressed MusicXML, which is what deflates best here. */
  ratio: 250,
  ratioFreeBytes: 1_000_000,
  /** Of one file of JSON. A content with a thousand cuts is 0.3 MB. */
  jsonBytes: 4_000_000,
} as const satisfies ZipLimits & { fileBytes: number; jsonBytes: number };
