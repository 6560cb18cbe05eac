"use client";

import { type KeyboardEvent, useEffect, useRef, useState } from "react";
import type { Comparison, DifferenceRow } from "@/app/_data/editions/editions-view";
import { Button } from "@/app/_ui/button";
import { capital } from "@/app/_ui/capital";
import { Icon } from "@/app/_ui/icon";
import { IconButton } from "@/app/_ui/icon-button";
import { Progress } from "@/app/_ui/progress";
import { SayProblem } from "@/app/_ui/say";
import { layoutFor } from "@/app/_ui/score/engraving";
import type { BarSpan } from "@/app/_ui/score/mark-bars";
import { useEngraving } from "@/app/_ui/score/use-engraving";
import { Sheet } from "@/app/_ui/sheet";
import { useWidth } from "@/app/_ui/strip/use-width";
import { saySide, saySideInside } from "@/lib/edition/choose-sides";
import { ComparedSystem } from "./compared-system";
import { type ComparedRow, layOutScore, type Written } from "./lay-out-score";
import styles from "./score-comparison.module.css";

/** From this width on the two sides stand beside each other. */
const besidePixels = 1100;
/** Between two sides that stand beside each other. */
const gutter = 24;
/** What the name of a side takes of its width. */
const namePixels = 62;

/** The place of one difference on the score, as either side plays it, and the way from one difference to the next. */
export function ScoreComparison({
  pieceId,
  comparison,
  chosen,
  onChoose,
}: {
  pieceId: string;
  comparison: Comparison;
  /** Place in the rows, from 0. */
  chosen: number;
  onChoose: (row: number | null) => void;
}) {
  const element = useRef<HTMLElement>(null);
  const { rows, earlier, later } = comparison;
  const row = rows[chosen];
  useEffect(() => {
    // Opened by the address, the page keeps its own focus.
    if (document.activeElement !== document.body) element.current?.focus({ preventScroll: true });
    element.current?.scrollIntoView({ block: "start", behavior: "auto" });
  }, []);
  if (!row) return null;
  const step = (by: number) => onChoose(Math.min(rows.length - 1, Math.max(0, chosen + by)));
  const key = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "ArrowRight" || event.key === "n") step(1);
    else if (event.key === "ArrowLeft" || event.key === "p") step(-1);
    else if (event.key === "Escape") onChoose(null);
    else return;
    event.preventDefault();
  };
  return (
    <Sheet
      ref={element}
      className={styles.sheet}
      aria-label="On the score"
      tabIndex={-1}
      onKeyDown={key}
      aria-keyshortcuts="ArrowLeft ArrowRight Escape"
    >
      <header className={styles.head}>
        <div>
          <h2>
            Change {chosen + 1} of {rows.length}
          </h2>
          <p aria-live="polite">{row.sentence}</p>
        </div>
        <div className={styles.steps}>
          <Button small disabled={chosen === 0} onClick={() => step(-1)}>
            <Icon name="back" small /> The one before
          </Button>
          <Button small disabled={chosen === rows.length - 1} onClick={() => step(1)}>
            The next <Icon name="forward" small />
          </Button>
          <IconButton icon="cross" label="Close the score" onClick={() => onChoose(null)} />
        </div>
      </header>
      {row.bars === null ? (
        <p className={styles.none}>
          This holds for the whole piece. It has no place of its own on the score.
        </p>
      ) : (
        <TheBars key={chosen} pieceId={pieceId} comparison={comparison} bars={row.bars} />
      )}
      <p className={styles.keys}>
        {capital(saySide(earlier.name))} stands above or on the left, {saySide(later.name)} below or on the
        right. Keys: ← and → for the changes, Escape to close.
      </p>
    </Sheet>
  );
}

function TheBars({ pieceId, comparison, bars }: { pieceId: string; comparison: Comparison; bars: BarSpan }) {
  const [room, width] = useWidth<HTMLDivElement>();
  const [isWhole, setIsWhole] = useState(false);
  const { onScore, earlier, later } = comparison;
  const sideWidth = width === null ? null : width >= besidePixels ? (width - gutter) / 2 : width;
  const layout = sideWidth === null ? null : layoutFor(sideWidth - namePixels);
  const { state, retry } = useEngraving(pieceId, "open", layout, onScore.stamp);
  const { engraving } = state;
  const rows = layOutScore(engraving?.systems ?? [], {
    onScore,
    names: { earlier: saySideInside(earlier.name), later: saySideInside(later.name) },
    written: comparison.rows.flatMap(toWritten),
    bars,
    isWhole,
  });
  const url = (index: number) => `/api/pieces/${pieceId}/engraving/${engraving?.key}/${index}`;
  return (
    <div ref={room} className={styles.rows} data-beside={(width ?? 0) >= besidePixels || undefined}>
      {state.status === "working" && <Progress words="Engraving the score." done={state.progress} />}
      {state.status === "failed" && (
        <SayProblem>
          {state.sentence}{" "}
          <Button small onClick={retry}>
            Try again
          </Button>
        </SayProblem>
      )}
      {rows.map((row) =>
        row.kind === "system" ? (
          <div key={row.system.index} className={styles.pair} data-system={row.system.index}>
            {(["earlier", "later"] as const).map((side) => (
              <ComparedSystem
                key={side}
                system={row.system}
                side={row[side]}
                name={saySide(comparison[side].name)}
                url={url(row.system.index)}
                bars={onScore.bars}
              />
            ))}
          </div>
        ) : (
          <Folded key={row.firstBar} row={row} labels={onScore.bars} onUnfold={() => setIsWhole(true)} />
        ),
      )}
    </div>
  );
}

function toWritten({ bars, written }: DifferenceRow): Written[] {
  return bars && written ? [{ ...bars, ...written }] : [];
}

function Folded({
  row,
  labels,
  onUnfold,
}: {
  row: Extract<ComparedRow, { kind: "neither" | "between" }>;
  labels: readonly { readonly label: string }[];
  onUnfold: () => void;
}) {
  const bars = `Bars ${labels[row.firstBar]?.label}–${labels[row.lastBar]?.label}`;
  return (
    <div className={styles.folded}>
      <span>
        <b>{bars}</b> {row.kind === "neither" ? "cut in both" : "folded in: the middle of this change"}
      </span>
      {row.kind === "between" && (
        <Button small onClick={onUnfold}>
          Unfold
        </Button>
      )}
    </div>
  );
}
