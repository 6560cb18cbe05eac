"use client";

import { type ReactNode, useId } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { useAnnounce } from "@/app/_ui/announcer";
import { Button } from "@/app/_ui/button";
import { Evidence } from "@/app/_ui/evidence";
import { SayNote } from "@/app/_ui/say";
import type { JoinAssessment } from "@/lib/cuts/join/assess-join";
import type { JoinRow as Row } from "@/lib/cuts/join/join-row";
import type { Shown } from "../_components/desk-state";
import { type CutEnds, endsOfSpan } from "../_cuts/cut-questions";
import styles from "./join-panel.module.css";
import { JoinRow } from "./join-row";
import { JoinSeam } from "./join-seam";
import { barsOfRow, nameJoin, sayGrade, sortRows } from "./join-words";
import type { Judging } from "./use-judged";

interface PanelProps {
  desk: Desk;
  judging: Judging;
  /** Which notes are marked on the score now. */
  shown: Shown | null;
  onShow: (shown: Shown | null) => void;
  /** Takes the repaired variant; none for those who cannot propose. */
  onTake?: (ends: CutEnds) => void;
  /** Stands beside the heading: to hear it. */
  children?: ReactNode;
}

/** The join of a cut: its verdict, and row by row what it was judged by. */
export function JoinPanel(props: PanelProps) {
  const { judging } = props;
  const titleId = useId();
  return (
    <section className={styles.join} aria-labelledby={titleId} aria-busy={judging.isWorking}>
      {judging.judged ? (
        <Judged {...props} join={judging.judged.join} titleId={titleId} />
      ) : (
        <>
          <h4 id={titleId} className={styles.waiting}>
            Join
          </h4>
          {judging.problem ? (
            <SayNote>The join is not judged. {judging.problem}</SayNote>
          ) : (
            judging.isWorking && (
              <p className={styles.small} role="status">
                Reading the bars… Times are ready, the join in a moment.
              </p>
            )
          )}
        </>
      )}
    </section>
  );
}

/** Marks notes on the score and says which bars they are in, for those who do not see it move. */
function useShow(desk: Desk, onShow: PanelProps["onShow"]) {
  const announce = useAnnounce();
  return (shown: Shown | null) => {
    onShow(shown);
    const labels = shown?.bars.map((bar) => desk.bars[bar]?.label ?? "") ?? [];
    announce(shown === null ? "No longer marked." : `In the score: bar ${labels.join(", bar ")}.`);
  };
}

function Judged({
  desk,
  join,
  titleId,
  shown,
  onShow: tell,
  onTake,
  children,
}: PanelProps & { join: JoinAssessment; titleId: string }) {
  const onShow = useShow(desk, tell);
  const { drawn, telling, quiet } = sortRows(join);
  const keyRow = join.rows.find(({ kind }) => kind === "key");
  const rowOf = (row: Row) => {
    const of = shownBy(join, row);
    const isShown = shown?.key === of.key;
    return (
      <JoinRow
        key={row.kind}
        row={row}
        keyRow={keyRow}
        isShown={isShown}
        onShow={() => onShow(isShown ? null : of)}
      />
    );
  };
  return (
    <>
      <div className={styles.head}>
        <JoinSeam grade={join.grade} />
        <h4 id={titleId}>
          {nameJoin(desk.bars, join.cut)}: {sayGrade(join.grade)}
        </h4>
        {children}
      </div>
      <ul className={styles.rows}>{drawn.map(rowOf)}</ul>
      {telling.length > 0 && <ul className={styles.rows}>{telling.map(rowOf)}</ul>}
      <ToWrite join={join} onShow={onShow} />
      {join.repaired && (
        <div className={styles.repair}>
          <p>{join.repaired.sentence}</p>
          {onTake && (
            <Button small onClick={() => join.repaired && onTake(endsOfSpan(join.repaired.cut))}>
              Take this instead
            </Button>
          )}
        </div>
      )}
      <Evidence
        summary={quiet.length > 0 ? `Also looked at, nothing to mend: ${quiet.length}` : "How to read this"}
      >
        <ul className={styles.rows}>{quiet.map(rowOf)}</ul>
        <p className={styles.small}>
          The verdict is that of the worst line. A line leads to its notes in the score, a figure opens to
          what it was judged by. It is advice: you decide.
        </p>
      </Evidence>
    </>
  );
}

function shownBy({ cut }: JoinAssessment, row: Row): Shown {
  const ends = endsOfSpan(cut);
  return {
    key: `${row.kind} ${ends.from.barIndex}:${ends.from.offset}-${ends.to.barIndex}:${ends.to.offset}`,
    bars: barsOfRow(row, cut),
    noteIds: row.noteIds,
    cut: ends,
  };
}

/** What has to be changed in the notes when the edition is written. */
function ToWrite({ join, onShow }: { join: JoinAssessment; onShow: (shown: Shown) => void }) {
  if (join.toWrite.length === 0) return null;
  const ends = endsOfSpan(join.cut);
  const bars = barsOfRow({ kind: "held", bars: [] }, join.cut);
  return (
    <div className={styles.write}>
      <h5>To write in the parts</h5>
      <ul>
        {join.toWrite.map(({ kind, sentence, noteIds }) => (
          <li key={`${kind} ${sentence}`}>
            <button
              type="button"
              aria-label={`${sentence} Show it in the score`}
              onClick={() => onShow({ key: `write ${kind}`, bars, noteIds, cut: ends })}
            >
              {sentence}
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}
