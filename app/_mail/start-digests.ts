import { now } from "@/lib/store/clock";
import { holdRound } from "@/lib/store/digest/hold-round";
import { BackOff } from "./back-off";
import { DigestRounds } from "./digest-round";
import { logMail, type MailLog, nameMailFailure } from "./mail-log";
import { openPost } from "./mail-post";
import type { MailSettings } from "./read-mail-settings";

const roundMilliseconds = 60_000;

/** Messages going out for as long as this process serves. */
export interface RunningDigests {
  /** Lets the message under way go out, then stops. */
  stop(): Promise<void>;
}

/**
 * Looks every minute for messages that are due and sends them, with one server of several at it at a time. A round that
 * fails is noted and tried again, ever later; it never ends the server.
 */
export function startDigests(settings: MailSettings, log: MailLog = logMail): RunningDigests {
  const post = openPost(settings);
  const rounds = new DigestRounds({ settings, post, log });
  const backOff = new BackOff();
  let underWay: Promise<void> = Promise.resolve();
  const stopping = new AbortController();
  let isAtIt = false;
  const round = async () => {
    isAtIt = true;
    try {
      const sent = await holdRound(() => rounds.run(now(), stopping.signal));
      if (sent) log({ what: "messages sent", detail: `${sent}` });
      backOff.forget("round");
    } catch (error) {
      const seconds = backOff.noteFailure("round", now());
      log({ what: "round failed", detail: `${nameMailFailure(error)}; again in ${seconds} s` });
    }
    isAtIt = false;
  };
  const timer = setInterval(() => {
    if (!isAtIt && backOff.mayTry("round", now())) underWay = round();
  }, roundMilliseconds);
  timer.unref();
  return {
    stop: async () => {
      clearInterval(timer);
      stopping.abort();
      await underWay;
      await post.close();
    },
  };
}
