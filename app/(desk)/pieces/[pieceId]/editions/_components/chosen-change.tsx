"use client";

import { useSearchParams } from "next/navigation";
import { createContext, type ReactNode, useContext, useMemo, useState } from "react";
import type { EditionsView } from "@/app/_data/editions/editions-view";
import { Button } from "@/app/_ui/button";
import { useAddress } from "@/app/_ui/use-address";
import { readChange, writeChange } from "./change-in-address";
import styles from "./chosen-change.module.css";
import { ScoreComparison } from "./score-comparison";

interface Chosen {
  /** Place in the rows, from 0; null while none is looked at. */
  readonly chosen: number | null;
  readonly choose: (row: number | null) => void;
}

const ChosenChange = createContext<Chosen>({ chosen: null, choose: () => undefined });

/** Which change is looked at on the score. The address keeps it, without asking the server again. */
export function ChosenChangeProvider({ count, children }: { count: number; children: ReactNode }) {
  const params = useSearchParams();
  const [chosen, choose] = useState(() => readChange(params, count));
  useAddress(writeChange(params, chosen));
  const value = useMemo(() => ({ chosen, choose }), [chosen]);
  return <ChosenChange value={value}>{children}</ChosenChange>;
}

/** The score of the change that is looked at; nothing while none is. */
export function ScoreOfChosen({ view }: { view: EditionsView }) {
  const { chosen, choose } = useContext(ChosenChange);
  if (chosen === null || !view.comparison) return null;
  return (
    <div className={styles.score}>
      <ScoreComparison
        pieceId={view.pieceId}
        comparison={view.comparison}
        chosen={chosen}
        onChoose={choose}
      />
    </div>
  );
}

/** Opens the score at one change. */
export function LookOnScore({ row, name }: { row: number; name: string }) {
  const { chosen, choose } = useContext(ChosenChange);
  return (
    <Button
      small
      kind="bare"
      aria-pressed={chosen === row}
      aria-label={`On the score: change ${row + 1}, ${name}`}
      onClick={() => choose(chosen === row ? null : row)}
    >
      On the score
    </Button>
  );
}
