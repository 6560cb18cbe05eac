/** Longest comment, in UTF-16 code units. */
export const maxCommentLength = 4_000;

/** Most records one map of a room may hold, deleted ones included: they stay, so that they can be brought back. */
export const maxRecords = {
  comments: 5_000,
  resolutions: 5_000,
  breaths: 2_000,
  pencilledCuts: 4_000,
  cues: 2_000,
} as const;

/** Most versions of a pencilled cut that one version may be written over. */
export const maxOver = 16;

/** Largest single update of a room, in bytes. A comment of the longest kind takes at most a twentieth of it. */
export const maxUpdateBytes = 256 * 1024;

/** How far a record's own time may lie ahead of the server's clock, in milliseconds. */
export const maxClockLeadMs = 24 * 60 * 60 * 1000;

/** Largest clock of one Yjs client: far above any real room, far below where its arithmetic stops being exact. */
export const maxClientClock = 2 ** 31;
