import type { EditionContent } from "@/lib/edition/edition-content";
import type {
  ArchivedApproval,
  ArchivedHint,
  ArchivedNeed,
  ArchivedPerformance,
  ArchivedProposal,
  ArchivedRewrite,
  ArchivedRewriteProposal,
  ArchivedTrailEntry,
  PieceEditionRecord,
} from "./decision-schemas";
import type { ArchivedPieceFile } from "./piece-schemas";
import type { ArchivedRoom } from "./room-schema";

/** One edition with everything that is kept of it. */
export interface PieceEdition extends Omit<PieceEditionRecord, "schema"> {
  readonly content: EditionContent;
  /** The edition as MusicXML, cuts carried out. */
  readonly musicXml: string;
}

/** A whole piece to take along: what its players brought, said, decided, froze and played. */
export interface PieceArchive {
  readonly piece: Omit<ArchivedPieceFile, "schema" | "files" | "hash" | "editionCount">;
  /** By SHA-256: the uploaded files that `piece.sources` names, exactly as they came. */
  readonly bytes: ReadonlyMap<string, Uint8Array>;
  readonly proposals: readonly ArchivedProposal[];
  /** Questions about rewrites, and every version that was told or asked about. */
  readonly rewriteProposals: readonly ArchivedRewriteProposal[];
  readonly rewrites: readonly ArchivedRewrite[];
  readonly hints: readonly ArchivedHint[];
  readonly approvals: readonly ArchivedApproval[];
  readonly needs: readonly ArchivedNeed[];
  readonly performances: readonly ArchivedPerformance[];
  readonly room: ArchivedRoom;
  readonly trail: readonly ArchivedTrailEntry[];
  /** № 1 first. */
  readonly editions: readonly PieceEdition[];
  /**
   * PDFs of printed pages, by the names that `pagesName` gives. They are listed and sealed with the other files, but not under
   * the hash of the piece: a newer engraver may print the same edition otherwise. None when it is not said.
   */
  readonly pages?: ReadonlyMap<string, Uint8Array>;
}
