"use client";

import { useRouter } from "next/navigation";
import { useCallback, useEffect } from "react";
import { saveTextFile } from "@/app/_offline/save-text-file";
import { onWaking } from "@/app/_room/on-waking";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { SayNote } from "@/app/_ui/say";
import { recordRunAction } from "@/app/(desk)/pieces/[pieceId]/actions/record-run";
import type { Run } from "./run";
import { sendRun } from "./send-run";
import styles from "./unsent-runs.module.css";
import { useRuns } from "./use-runs";

/** So often it is tried again while something waits, in milliseconds. */
const tryEvery = 20_000;

/** Stopwatches that were written down without a connection: they go by themselves, from whichever screen comes first. */
export function UnsentRuns({ userId }: { userId: string }) {
  const { runs, kept } = useRuns(userId);
  const router = useRouter();
  const announce = useAnnounce();
  const waiting = runs?.filter(({ target }) => target !== null) ?? [];
  const isWaiting = waiting.some(({ refusal }) => refusal === null);
  const sendAll = useCallback(async () => {
    const due = kept?.list().filter(({ target, refusal }) => target !== null && refusal === null) ?? [];
    for (const run of due) {
      const sent = kept && (await sendRun(kept, run, recordRunAction));
      if (sent?.kind !== "kept") continue;
      announce(`Sent: ${sent.performance.name}.`);
      router.refresh();
    }
  }, [kept, router, announce]);
  useEffect(() => {
    if (!isWaiting) return;
    void sendAll();
    const timer = setInterval(() => void sendAll(), tryEvery);
    const stopHearing = onWaking(() => void sendAll());
    return () => {
      clearInterval(timer);
      stopHearing();
    };
  }, [isWaiting, sendAll]);
  const lookAgain = (run: Run) => {
    kept?.keep({ ...run, target: null });
    router.push(`/pieces/${run.pieceId}/stopwatch`);
  };
  return waiting.map((run) => (
    <div key={run.runId} className={styles.line}>
      <SayNote>
        {run.refusal === null ? (
          <p>
            Not sent: the times of {run.target?.name}, {run.pieceTitle}. They stay here and go when you are
            back.
          </p>
        ) : (
          <p>
            The times of {run.target?.name}, {run.pieceTitle}, were not kept: {run.refusal}
          </p>
        )}
        <p className={styles.buttons}>
          {run.refusal === null ? (
            <Button small onClick={() => void sendAll()}>
              Send now
            </Button>
          ) : (
            <>
              <Button small onClick={() => lookAgain(run)}>
                Look at them again
              </Button>
              <Button small kind="bare" onClick={() => kept?.letGo(run.runId)}>
                Let them go
              </Button>
            </>
          )}
          <Button
            small
            kind="bare"
            onClick={() => saveTextFile(`times-${run.runId}.json`, JSON.stringify(run, null, 2))}
          >
            Save as a file
          </Button>
        </p>
      </SayNote>
    </div>
  ));
}
