import type { ActionResult } from "@/app/_data/action-result";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import type { KeptPractice } from "./kept-practice";
import type { PracticeChange } from "./practice-change";

type Send = (input: unknown) => Promise<ActionResult<PracticeRecord>>;

/** The actions, one for each kind of change. */
export type SendPractice = Readonly<Record<PracticeChange["kind"], Send>>;

/** Answers after which it is worth another try without the player's doing. */
const passing = new Set(["rate-limited", "signed-out", "not-sent"]);

/** What is under way from this page: who asks meanwhile has it look again afterwards. */
let underWay: { readonly promise: Promise<boolean>; again: boolean } | null = null;

/**
 * Sends everything that waits, in the order in which it was done, and stops at the first that does not arrive. What the
 * server has is marked as sent, what it refuses keeps its reason.
 *
 * @returns whether anything arrived.
 */
export function sendPractice(kept: KeptPractice, send: SendPractice): Promise<boolean> {
  if (underWay) {
    underWay.again = true;
    return underWay.promise;
  }
  const sending = { promise: Promise.resolve(false), again: false };
  sending.promise = sendInTurn(kept, send, sending).finally(() => {
    underWay = null;
  });
  underWay = sending;
  return sending.promise;
}

async function sendInTurn(
  kept: KeptPractice,
  send: SendPractice,
  sending: { again: boolean },
): Promise<boolean> {
  let hasArrived = false;
  do {
    sending.again = false;
    for (const change of kept.list().filter(isWaiting)) {
      const answer = await send[change.kind](inputOf(change)).catch(() => null);
      if (answer === null || (!answer.ok && passing.has(answer.kind))) return hasArrived;
      hasArrived ||= answer.ok;
      kept.keep(answer.ok ? { ...change, isSent: true } : { ...change, refusal: answer.sentence });
    }
  } while (sending.again);
  return hasArrived;
}

export function isWaiting({ isSent, refusal }: PracticeChange): boolean {
  return !isSent && refusal === null;
}

/** A change as its action takes it. */
export function inputOf(change: PracticeChange) {
  const { pieceId } = change;
  return change.kind === "log" ? { pieceId, ...change.entry } : { pieceId, entryId: change.entryId };
}
