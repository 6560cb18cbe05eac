import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { database } from "../database";
import type { StoreProblem } from "../store-problem";

export interface RateLimit {
  readonly most: number;
  readonly windowSeconds: number;
}

/** How often something may be tried. Numbers from judgement: far above a person, far below a guessing machine. */
export const rateLimits = {
  signInFromAddress: { most: 60, windowSeconds: 15 * 60 },
  signInToAccount: { most: 10, windowSeconds: 15 * 60 },
  newAccountFromAddress: { most: 20, windowSeconds: 60 * 60 },
  uploadByPerson: { most: 40, windowSeconds: 60 * 60 },
  takeAwayByPerson: { most: 30, windowSeconds: 60 * 60 },
  bringInByPerson: { most: 40, windowSeconds: 60 * 60 },
  passwordByPerson: { most: 10, windowSeconds: 15 * 60 },
  previewByPerson: { most: 80, windowSeconds: 60 * 60 },
  invitationByPerson: { most: 30, windowSeconds: 60 * 60 },
  invitationLookUpFromAddress: { most: 120, windowSeconds: 15 * 60 },
  readerLinkByPerson: { most: 60, windowSeconds: 60 * 60 },
  /** Only links that open nothing are counted: a page asks for many pictures. */
  wrongReaderLinkFromAddress: { most: 60, windowSeconds: 15 * 60 },
} as const satisfies Readonly<Record<string, RateLimit>>;

export type RateLimitName = keyof typeof rateLimits;

/**
 * Counts one try of `who` in the present window, which is the same for every process.
 *
 * @returns "rate-limited" with the seconds to the next window when there were too many. Refused tries count too.
 */
export async function takeTry(name: RateLimitName, who: string): Promise<Result<null, StoreProblem>> {
  const { start, retryAfterSeconds } = presentWindow(name);
  const rows = await database().$queryRaw<{ count: number }[]>`
    INSERT INTO "RateWindow" ("key", "start", "count")
    VALUES (${keyOf(name, who)}, ${start}, 1)
    ON CONFLICT ("key", "start") DO UPDATE SET "count" = "RateWindow"."count" + 1
    RETURNING "count"`;
  const [tries] = rows;
  if (!tries) throw new Error("counting a try returned no row");
  if (tries.count === 1) await forgetOldWindows();
  return tries.count > rateLimits[name].most
    ? failure({ kind: "rate-limited", retryAfterSeconds })
    : success(null);
}

/** Refuses `who` when the tries of the present window are used up; counts none itself. */
export async function refuseAfterTries(
  name: RateLimitName,
  who: string,
): Promise<Result<null, StoreProblem>> {
  const { start, retryAfterSeconds } = presentWindow(name);
  const window = await database().rateWindow.findUnique({
    where: { key_start: { key: keyOf(name, who), start } },
    select: { count: true },
  });
  return (window?.count ?? 0) >= rateLimits[name].most
    ? failure({ kind: "rate-limited", retryAfterSeconds })
    : success(null);
}

const keyOf = (name: RateLimitName, who: string): string => `${name}:${who}`;

function presentWindow(name: RateLimitName): { start: Date; retryAfterSeconds: number } {
  const { windowSeconds } = rateLimits[name];
  const at = now().getTime() / 1000;
  const start = Math.floor(at / windowSeconds) * windowSeconds;
  return { start: new Date(start * 1000), retryAfterSeconds: Math.ceil(start + windowSeconds - at) };
}

async function forgetOldWindows(): Promise<void> {
  const yesterday = new Date(now().getTime() - 24 * 60 * 60 * 1000);
  await database().rateWindow.deleteMany({ where: { start: { lt: yesterday } } });
}
