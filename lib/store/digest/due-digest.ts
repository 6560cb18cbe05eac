import type { News } from "./news";

/** Up to where somebody was told of a piece's news. */
export interface DigestMark {
  /** The last entry of the room's log that was looked at. */
  readonly sequence: number;
  /** The trail was looked at up to this time. */
  readonly at: Date;
}

/** The news of one piece for one person. */
export interface DigestPiece {
  readonly pieceId: string;
  readonly title: string;
  /** In the order in which it happened; not empty. */
  readonly news: readonly News[];
  /** Names of everybody who ever belonged to the piece, by user id. */
  readonly people: ReadonlyMap<string, string>;
  /** Printed bar numbers by bar index; empty when no news speaks of bars. */
  readonly barLabels: readonly string[];
  /** The mark as it was found; null when the person was never told of anything here. */
  readonly before: DigestMark | null;
  /** The mark once this was told. */
  readonly after: DigestMark;
}

/** One message that is due. */
export interface DueDigest {
  readonly userId: string;
  readonly name: string;
  readonly email: string;
  readonly pieces: readonly DigestPiece[];
  /**
   * SHA-256 (hex) of whom it tells of what: the same for the same news, whenever it is worked out, so that a message
   * repeated after a crash can be known as the same one.
   */
  readonly key: string;
}
