import type { DueDigest } from "@/lib/store/digest/due-digest";
import { findDueDigests, type WaitingNews } from "@/lib/store/digest/find-due-digests";
import { sendDigest } from "@/lib/store/digest/send-digest";
import { BackOff } from "./back-off";
import { composeMail } from "./compose-mail";
import { writeDigest } from "./digest-message";
import { type MailLog, nameMailFailure } from "./mail-log";
import type { Post } from "./mail-post";
import type { MailSettings } from "./read-mail-settings";

/** Messages of one round; the others go in the next. */
const mostAtOnce = 100;
/** A way out that fails so often in one round is not tried further in it. */
const mostFailures = 3;

export interface DigestRoundParts {
  readonly settings: MailSettings;
  readonly post: Post;
  readonly log: MailLog;
}

/**
 * Sends what is due, round by round, and remembers between rounds what saves work: news that wait for their time, and
 * whose messages did not go out and when to try again.
 */
export class DigestRounds {
  readonly #waiting: WaitingNews = new Map();
  readonly #backOff = new BackOff();
  /** Messages that were handed over while their marks could not be kept: they must not go a second time. */
  readonly #handedOver = new Set<string>();

  constructor(readonly parts: DigestRoundParts) {}

  /**
   * @param signal ends the round between two messages.
   * @returns how many messages were sent.
   */
  async run(now: Date, signal?: AbortSignal): Promise<number> {
    const { log } = this.parts;
    const due = await findDueDigests(now, {
      waiting: this.#waiting,
      onFailure: (error, about) =>
        log({ what: "news not worked out", ...about, detail: nameMailFailure(error) }),
    });
    const trying = due.filter(({ userId }) => this.#backOff.mayTry(userId, now)).slice(0, mostAtOnce);
    let [sent, failures] = [0, 0];
    for (const digest of trying) {
      if (failures >= mostFailures || signal?.aborted) break;
      const outcome = await this.#send(digest, now);
      if (outcome === "sent") sent += 1;
      if (outcome === "failed") failures += 1;
    }
    return sent;
  }

  /** A message that does not go out keeps its marks as they were, so the same news are found again. */
  async #send(digest: DueDigest, now: Date): Promise<"sent" | "overtaken" | "failed"> {
    const { userId } = digest;
    try {
      const outcome = await sendDigest(digest, () => this.#handOver(digest, now));
      this.#backOff.forget(userId);
      if (outcome === "sent") this.#handedOver.delete(digest.key);
      return outcome;
    } catch (error) {
      const seconds = this.#backOff.noteFailure(userId, now);
      const detail = `${nameMailFailure(error)}; again in ${seconds} s`;
      this.parts.log({ what: "message not sent", userId, detail });
      return "failed";
    }
  }

  async #handOver(digest: DueDigest, now: Date): Promise<void> {
    if (this.#handedOver.has(digest.key)) return;
    const { settings, post } = this.parts;
    await post.send(await composeMail(writeDigest(digest, settings), settings.from, now));
    this.#handedOver.add(digest.key);
  }
}
