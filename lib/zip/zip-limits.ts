/** How much of an archive is unpacked. Sizes in bytes. */
export interface ZipLimits {
  readonly entries: number;
  /** Unpacked, as declared for all entries together. */
  readonly totalBytes: number;
  /** Unpacked, of one entry. */
  readonly entryBytes: number;
  /** Unpacked to packed size of one entry. */
  readonly ratio: number;
  /** Below this unpacked size the ratio is not looked at. */
  readonly ratioFreeBytes: number;
}
