import type { EditionContent } from "../edition-content";
import type { ArchivedRecord, ArchiveManifest } from "./archive-schemas";

/** One edition with everything that is kept of it. */
export interface ArchivedEdition extends Omit<ArchivedRecord, "schema"> {
  readonly content: EditionContent;
}

/** A file that an edition was made on, exactly as it was uploaded. */
export interface ArchivedSource {
  /** SHA-256 of the bytes, lower-case hexadecimal. */
  readonly hash: string;
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

/** An edition to take along: with its chain back to the first, and the music they were made on. */
export interface EditionArchive {
  readonly piece: ArchiveManifest["piece"];
  readonly rendererVersion: string;
  /** № 1 first; the last is the one that was exported. */
  readonly editions: readonly ArchivedEdition[];
  readonly sources: readonly ArchivedSource[];
}
