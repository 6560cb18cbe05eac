import { isZip } from "@/lib/zip/unpack-entry";
import { readZipDirectory } from "@/lib/zip/zip-directory";

/**
 * Whether the bytes are meant as an exported edition and not as compressed MusicXML, which is an archive too; damaged
 * ones as well, as long as the names of their files are there.
 */
export function isEditionArchive(bytes: Uint8Array): boolean {
  if (!isZip(bytes)) return false;
  const names = (readZipDirectory(bytes) ?? []).map(({ name }) => name);
  const isScore = names.includes("META-INF/container.xml");
  return !isScore && names.some((name) => name === "manifest.json" || name.startsWith("editions/"));
}

/** Whether they are meant as a whole piece that was taken along; damaged ones as well. */
export function isPieceArchive(bytes: Uint8Array): boolean {
  if (!isZip(bytes)) return false;
  const names = (readZipDirectory(bytes) ?? []).map(({ name }) => name);
  return names.includes("piece.json") || names.includes("trail.json");
}
