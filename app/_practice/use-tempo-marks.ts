"use client";

import { useMemo } from "react";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import type { PracticePassage } from "@/lib/practice/practice-passage";
import { findTempoMarks, type TempoMark } from "@/lib/practice/tempo-marks";
import { usePracticeLog } from "./use-practice-log";

/** "Not yet at tempo", for the strip: by the log as its pianist left it, on this device too. */
export function useTempoMarks(
  piece: { pieceId: string; userId: string; sourceHash: string },
  passages: readonly PracticePassage[],
  entries: readonly PracticeRecord[],
): readonly TempoMark[] {
  const log = usePracticeLog(piece, entries);
  return useMemo(() => findTempoMarks(passages, log.entries), [passages, log.entries]);
}
