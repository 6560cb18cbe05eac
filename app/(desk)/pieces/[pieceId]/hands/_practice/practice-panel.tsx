"use client";

import type { PracticeRecord } from "@/lib/practice/practice-entry";
import type { PracticePassage } from "@/lib/practice/practice-passage";

/** The occasion that is practised for. */
export interface NextPerformance {
  readonly name: string;
  /** "2027-02-14". */
  readonly on: string;
}

export interface PracticePanelProps {
  pieceId: string;
  /** The account that the log belongs to. */
  userId: string;
  sourceHash: string;
  passages: readonly PracticePassage[];
  entries: readonly PracticeRecord[];
  performance: NextPerformance | null;
}

/** Practising up to tempo, passage by passage. */
export function PracticePanel({ passages }: PracticePanelProps) {
  return (
    <ul>
      {passages.map(({ fromBar, toBar, label }) => (
        <li key={`${fromBar}-${toBar}`}>{label}</li>
      ))}
    </ul>
  );
}
