import { digestTimes } from "./digest-times";

/** One thing that others did, as far as its time goes. */
export interface TimedNews {
  readonly at: Date;
  /** Whether the person is named in it. */
  readonly namesMe: boolean;
}

/**
 * When a person is to be told of what others did in one piece: once the piece is quiet, at the latest some time after
 * the first of it, and sooner when the person is named; never sooner after the message before than the pause.
 *
 * @param news not empty.
 * @param lastMessage when the person got their last message about any piece; null for never.
 * @throws RangeError without news.
 */
export function findDueTime(news: readonly TimedNews[], lastMessage: Date | null): Date {
  if (news.length === 0) throw new RangeError("no news, no time to tell them");
  const times = news.map(({ at }) => at.getTime());
  const quiet = Math.max(...times) + digestTimes.quiet;
  const patience = Math.min(...times) + digestTimes.patience;
  const named = news.filter(({ namesMe }) => namesMe).map(({ at }) => at.getTime());
  const ordinary = after(lastMessage, digestTimes.pause, Math.min(quiet, patience));
  const urgent = after(lastMessage, digestTimes.mentionPause, Math.min(...named) + digestTimes.mentionQuiet);
  return new Date(Math.min(ordinary, urgent));
}

function after(lastMessage: Date | null, pause: number, time: number): number {
  return lastMessage === null ? time : Math.max(time, lastMessage.getTime() + pause);
}
