/** What the central directory of a ZIP archive says of one file (PKWARE APPNOTE 6.3, section 4.3.12). */
export interface ZipEntry {
  readonly name: string;
  readonly isEncrypted: boolean;
  /** 0 stored, 8 deflated. */
  readonly method: number;
  readonly zippedSize: number;
  readonly size: number;
  readonly crc32: number;
  /** Of its local header from the start of the archive. */
  readonly offset: number;
}

const endSignature = 0x06054b50;
const entrySignature = 0x02014b50;
const localSignature = 0x04034b50;

/**
 * The entries in directory order; null when the directory is damaged, lies outside the bytes or needs ZIP64
 * (an archive of more than 4 GB or 65,535 files, far beyond what is read).
 */
export function readZipDirectory(bytes: Uint8Array): ZipEntry[] | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = findEnd(view);
  if (end === null) return null;
  const count = view.getUint16(end + 10, true);
  let at = view.getUint32(end + 16, true);
  const entries: ZipEntry[] = [];
  for (let index = 0; index < count; index += 1) {
    if (at + 46 > end || view.getUint32(at, true) !== entrySignature) return null;
    const nameLength = view.getUint16(at + 28, true);
    if (at + 46 + nameLength > end) return null;
    entries.push(readEntry(bytes, view, at, nameLength));
    at += 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return entries;
}

/** The entry's bytes as they stand in the archive; null when they lie outside it. */
export function zippedBytes(bytes: Uint8Array, entry: ZipEntry): Uint8Array | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { offset } = entry;
  if (offset + 30 > bytes.length || view.getUint32(offset, true) !== localSignature) return null;
  const start = offset + 30 + view.getUint16(offset + 26, true) + view.getUint16(offset + 28, true);
  return start + entry.zippedSize > bytes.length ? null : bytes.subarray(start, start + entry.zippedSize);
}

/** The end record stands last, before a comment of at most 65,535 bytes. */
function findEnd(view: DataView): number | null {
  const last = view.byteLength - 22;
  for (let at = last; at >= 0 && at >= last - 65_535; at -= 1) {
    if (view.getUint32(at, true) === endSignature) return at;
  }
  return null;
}

function readEntry(bytes: Uint8Array, view: DataView, at: number, nameLength: number): ZipEntry {
  const flags = view.getUint16(at + 8, true);
  const nameBytes = bytes.subarray(at + 46, at + 46 + nameLength);
  return {
    name: new TextDecoder().decode(nameBytes),
    isEncrypted: (flags & 1) !== 0,
    method: view.getUint16(at + 10, true),
    crc32: view.getUint32(at + 16, true),
    zippedSize: view.getUint32(at + 20, true),
    size: view.getUint32(at + 24, true),
    offset: view.getUint32(at + 42, true),
  };
}
