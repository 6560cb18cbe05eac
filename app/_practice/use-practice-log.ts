"use client";

import { useRouter } from "next/navigation";
import { useCallback, useEffect, useMemo, useState } from "react";
import { useKeptItems } from "@/app/_offline/use-kept-items";
import type { PracticeEntry, PracticeRecord, TriedTempo } from "@/lib/practice/practice-entry";
import type { PassageBars } from "@/lib/practice/practice-passage";
import { keptPractice } from "./kept-practice";
import { findShown, type LoggedEntry, layChanges } from "./lay-changes";
import { practiceActions } from "./practice-actions";
import { entryOf, type PracticeChange } from "./practice-change";
import { inputOf, sendPractice } from "./send-practice";

export interface PracticeLog {
  /** As the pianist left it, on this device too. */
  readonly entries: readonly LoggedEntry[];
  /** A sentence when something could neither be kept nor sent. */
  readonly problem: string | null;
  log(passage: PassageBars & { readonly label: string }, tempo: TriedTempo, note: string): void;
  takeOff(entry: LoggedEntry, label: string): void;
  bringBack(entry: LoggedEntry, label: string): void;
  /** What the server refused is forgotten. */
  letGo(entry: LoggedEntry): void;
}

/**
 * The log of one piece. Everything is kept on the device first and then sent, so that nothing is lost without a connection.
 *
 * @param entries what the server said.
 */
export function usePracticeLog(
  { pieceId, userId, sourceHash }: { pieceId: string; userId: string; sourceHash: string },
  entries: readonly PracticeRecord[],
): PracticeLog {
  const { items, kept } = useKeptItems(keptPractice, userId);
  const router = useRouter();
  const [problem, setProblem] = useState<string | null>(null);
  const changes = useMemo(
    () => items?.filter((change) => change.pieceId === pieceId) ?? null,
    [items, pieceId],
  );
  useEffect(() => {
    if (!kept || !changes) return;
    for (const { changeId } of findShown(entries, changes, Date.now())) kept.letGo(changeId);
  }, [kept, changes, entries]);
  const keep = useCallback(
    async (change: PracticeChange) => {
      if (!kept) return;
      setProblem(null);
      // Where the browser keeps nothing it goes at once or not at all.
      const hasArrived = kept.keep(change)
        ? await sendPractice(kept, practiceActions)
        : await sendAlone(change, setProblem);
      if (hasArrived) router.refresh();
    },
    [kept, router],
  );
  const logged = useMemo(
    () => layChanges(entries, changes ?? []).filter((entry) => entry.sourceHash === sourceHash),
    [entries, changes, sourceHash],
  );
  return {
    entries: logged,
    problem,
    log: ({ fromBar, toBar, label }, tempo, note) => {
      const entryId = crypto.randomUUID();
      const at = new Date().toISOString();
      const entry: PracticeEntry = { entryId, at, fromBar, toBar, sourceHash, tempo, note };
      void keep({ ...changeOf(pieceId, label), kind: "log", entry });
    },
    takeOff: ({ id }, label) => void keep({ ...changeOf(pieceId, label), kind: "take off", entryId: id }),
    bringBack: ({ id }, label) => void keep({ ...changeOf(pieceId, label), kind: "bring back", entryId: id }),
    letGo: ({ id }) => {
      for (const change of changes ?? [])
        if (change.refusal !== null && entryOf(change) === id) kept?.letGo(change.changeId);
    },
  };
}

const lost = "Not kept: this browser keeps nothing, and the connection failed. Try again.";

async function sendAlone(change: PracticeChange, say: (problem: string) => void): Promise<boolean> {
  const answer = await practiceActions[change.kind](inputOf(change)).catch(() => null);
  if (!answer?.ok) say(answer?.sentence ?? lost);
  return answer?.ok ?? false;
}

function changeOf(pieceId: string, label: string) {
  const named = { version: 1, changeId: crypto.randomUUID(), pieceId, madeAt: Date.now(), label } as const;
  return { ...named, isSent: false, refusal: null };
}
