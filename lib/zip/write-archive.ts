import { type Zippable, zipSync } from "fflate";
import { isZip } from "./unpack-entry";

/**
 * A ZIP archive that depends on nothing but the files: in the order of their names (UTF-16 code units), all dated
 * 1 January 1980, the first day that the format knows, so that the same files are the same bytes wherever and whenever
 * they are packed. Files that are archives themselves are stored as they are, all others deflated.
 */
export function writeArchive(files: ReadonlyMap<string, Uint8Array>): Uint8Array<ArrayBuffer> {
  const zippable: Zippable = Object.create(null);
  for (const name of [...files.keys()].sort()) {
    const bytes = files.get(name);
    if (bytes) zippable[name] = [bytes, { level: isZip(bytes) ? 0 : 9, mtime: firstDay() }];
  }
  return new Uint8Array(zipSync(zippable));
}

/** The format writes local time: this is the same day and hour in every zone. */
const firstDay = () => new Date(1980, 0, 1, 12);
