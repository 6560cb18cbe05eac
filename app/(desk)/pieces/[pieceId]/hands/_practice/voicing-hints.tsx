"use client";

import { useMemo } from "react";
import type { DeskHint } from "@/app/_data/desk/hands-desk";
import { useAnswer } from "@/app/_study/use-answer";
import { Sheet } from "@/app/_ui/sheet";
import { findVoicingHints } from "@/lib/practice/voicing-hints";
import { HintItem } from "./hint-item";
import styles from "./voicing-hints.module.css";

export interface VoicingHintsProps {
  pieceId: string;
  /** Words of the cues that were written over the reduction: "Fl.", "Ob. solo". */
  instruments: readonly string[];
  /** Every text that was written, the newest first. */
  hints: readonly DeskHint[];
  mayWrite: boolean;
}

/** How to sound like the instruments that the cues of this piece name, those that the duo wrote and those that are printed. */
export function VoicingHints({ pieceId, instruments, hints, mayWrite }: VoicingHintsProps) {
  const { value: printed } = useAnswer({ kind: "printed-cues", question: null });
  const found = useMemo(() => findVoicingHints([...instruments, ...(printed ?? [])]), [instruments, printed]);
  return (
    <Sheet className={styles.sheet} aria-label="Sounding like the orchestra">
      <h2 className={styles.head}>Sounding like the orchestra</h2>
      {found.length === 0 ? (
        <p className={styles.none}>
          No cue names an instrument yet. Write cues over the reduction (Fl., Cor., Vc.), and how to come near
          each of them at the piano stands here.
        </p>
      ) : (
        <ul className={styles.list}>
          {found.map((hint) => (
            <HintItem
              key={hint.key}
              pieceId={pieceId}
              hint={hint}
              written={hints.filter(({ instrument }) => instrument === hint.key)}
              mayWrite={mayWrite}
            />
          ))}
        </ul>
      )}
    </Sheet>
  );
}
