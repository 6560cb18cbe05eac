const minute = 60_000;
const hour = 60 * minute;

/**
 * When news are worth a message, in milliseconds. Numbers from judgement: a person who writes pauses for less than ten
 * minutes, and nobody wants more than a few messages a day.
 */
export const digestTimes = {
  /** A piece is quiet when nobody else has changed it for so long. */
  quiet: 10 * minute,
  /** News wait no longer than this, however busy the piece stays. */
  patience: 2 * hour,
  /** Between two messages to one person. */
  pause: 4 * hour,
  /** Being named in a comment waits only for second thoughts. */
  mentionQuiet: 2 * minute,
  mentionPause: 30 * minute,
  /**
   * An entry of the trail carries the time at which its transaction took the clock, and may become visible later than an
   * entry with a later time; by then its transaction has ended or been given up (`database.ts`: 20 s and 30 s).
   */
  settling: minute,
  /** What is older is no news: a message about it would only come because none could be sent, or none was wanted. */
  oldest: 7 * 24 * hour,
} as const;
