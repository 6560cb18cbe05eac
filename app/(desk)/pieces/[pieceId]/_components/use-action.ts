"use client";

import { useRouter } from "next/navigation";
import { useCallback, useState, useTransition } from "react";
import type { ActionResult } from "@/app/_data/action-result";

const notSent = "Not sent: the connection failed. Nothing was changed. Try again.";

/**
 * Runs a server action, keeps what it could not do as a sentence, and reads the screen again when it did.
 *
 * @returns `run` resolves with what the action answered.
 */
export function useAction(): {
  run: <T>(action: (input: unknown) => Promise<ActionResult<T>>, input: unknown) => Promise<ActionResult<T>>;
  isBusy: boolean;
  problem: string | null;
  /** The last one did not reach the server. */
  isNotSent: boolean;
  clear: () => void;
} {
  const router = useRouter();
  const [isRunning, setIsRunning] = useState(false);
  const [isRefreshing, startRefresh] = useTransition();
  const [problem, setProblem] = useState<string | null>(null);
  const [isNotSent, setIsNotSent] = useState(false);
  const run = useCallback(
    async <T>(
      action: (input: unknown) => Promise<ActionResult<T>>,
      input: unknown,
    ): Promise<ActionResult<T>> => {
      setIsRunning(true);
      setProblem(null);
      const answer = await action(input).catch(() => null);
      setIsRunning(false);
      setIsNotSent(answer === null);
      const result: ActionResult<T> = answer ?? { ok: false, kind: "not-sent", sentence: notSent };
      // Also after a refusal: what the screen shows may be what changed meanwhile. Without a connection it would hang.
      if (answer !== null) startRefresh(() => router.refresh());
      if (!result.ok) setProblem(result.sentence);
      return result;
    },
    [router],
  );
  const clear = useCallback(() => setProblem(null), []);
  return { run, isBusy: isRunning || isRefreshing, problem, isNotSent, clear };
}
