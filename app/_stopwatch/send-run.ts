import type { ActionResult } from "@/app/_data/action-result";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import type { KeptRuns } from "./kept-runs";
import { type Run, toSend } from "./run";

export type SendRun = (input: unknown) => Promise<ActionResult<PerformanceRecord>>;

/** What became of a run that was sent. */
export type SentRun =
  | { readonly kind: "kept"; readonly performance: PerformanceRecord }
  /** It is still here, and goes when the connection is back. */
  | { readonly kind: "not sent" }
  /** It is still here, and does not go by itself. */
  | { readonly kind: "refused"; readonly sentence: string };

/** Runs that are on their way from this page: whoever asks a second time is told the same. */
const underWay = new Map<string, Promise<SentRun>>();

/**
 * Sends a run whose player has said what it is to be kept with. It is let go of here only when the server has it; sent
 * twice, it is kept once there.
 */
export function sendRun(kept: KeptRuns, run: Run, send: SendRun): Promise<SentRun> {
  const already = underWay.get(run.runId);
  if (already) return already;
  const sending = sendOnce(kept, run, send).finally(() => underWay.delete(run.runId));
  underWay.set(run.runId, sending);
  return sending;
}

/** Answers after which it is worth another try without the player's doing. */
const passing = new Set(["rate-limited", "signed-out", "not-sent"]);

async function sendOnce(kept: KeptRuns, run: Run, send: SendRun): Promise<SentRun> {
  if (run.target === null) throw new RangeError(`Nobody has said what run ${run.runId} is to be kept with`);
  const answer = await send(toSend(run, run.target)).catch(() => null);
  if (answer?.ok) {
    kept.letGo(run.runId);
    return { kind: "kept", performance: answer.value };
  }
  if (answer === null || passing.has(answer.kind)) return { kind: "not sent" };
  kept.keep({ ...run, refusal: answer.sentence });
  return { kind: "refused", sentence: answer.sentence };
}
