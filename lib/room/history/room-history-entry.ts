/** One entry of a room's log. */
export interface RoomHistoryEntry {
  /** Its place in the log, from 1. */
  readonly sequence: number;
  readonly epoch: number;
  /** A Yjs update (v1). */
  readonly update: Uint8Array;
  /** Who wrote it; null in the first entry of an epoch that began anew from the records of the one before. */
  readonly userId: string | null;
  /** When it was stored, by the server's clock. */
  readonly at: Date;
}
