"use client";

import { type KeyboardEvent, useEffect, useMemo, useRef, useState } from "react";
import { Button } from "../button";
import type { Playing } from "../playing";
import { Progress } from "../progress";
import { SayProblem } from "../say";
import { useWidth } from "../strip/use-width";
import { layoutFor } from "./engraving";
import { foldRows, plainRows } from "./fold";
import { FoldLine } from "./fold-line";
import type { BarSpan, Marking } from "./mark-bars";
import { spanOf } from "./mark-bars";
import type { ScoreCues } from "./score-cue";
import type { ScoreCut } from "./score-cut";
import type { BarPin } from "./score-pin";
import { ScoreSystem, type ShownNotes } from "./score-system";
import styles from "./score-view.module.css";
import { TurnPages } from "./turn-pages";
import { useEngraving } from "./use-engraving";
import { useMarking } from "./use-marking";
import { useView } from "./use-view";

/** Everything open, cuts folded in, or engraved anew as it will read once the agreed cuts are made. */
export type Reading = "open" | "folded" | "as-it-will-read";

/**
 * The engraved score. It scrolls by itself; systems are fetched as they come near; bars are marked on it.
 *
 * @param goTo a bar that is taken to an edge of the view each time `turn` changes.
 * @param stamp `music` changes when the file or the roles of its parts do, `decided` when agreed cuts or standing rewrites do.
 */
export function ScoreView({
  pieceId,
  reading,
  stamp,
  bars,
  cuts,
  pins,
  cues,
  marking,
  looked = null,
  shown = null,
  playing = null,
  goTo,
  onMark,
  onPin,
  onCue,
  onView,
  onKey,
}: {
  pieceId: string;
  reading: Reading;
  stamp: { readonly music: string; readonly decided: string };
  bars: readonly { readonly label: string; readonly solo: string }[];
  cuts: readonly ScoreCut[];
  pins: readonly BarPin[];
  cues: ScoreCues;
  marking: Marking | null;
  /** A cut that is drawn to be looked at. It is never folded in. */
  looked?: ScoreCut | null;
  /** Bars and notes that a judgement speaks of. */
  shown?: ShownNotes | null;
  /** Tells where music is that is being listened to; the score follows it. The same at each drawing. */
  playing?: Playing | null;
  goTo: { readonly bar: number; readonly edge: "top" | "bottom"; readonly turn: number };
  onMark: (marking: Marking | null) => void;
  onPin: (ids: readonly string[]) => void;
  onCue: (id: string) => void;
  onView: (view: BarSpan) => void;
  onKey: (event: KeyboardEvent) => void;
}) {
  const scroller = useRef<HTMLElement>(null);
  const [room, width] = useWidth<HTMLOListElement>();
  const isAsRead = reading === "as-it-will-read";
  const layout = width === null ? null : layoutFor(width);
  const { state, retry } = useEngraving(
    pieceId,
    isAsRead ? "as-it-will-read" : "open",
    layout,
    isAsRead ? `${stamp.music} ${stamp.decided}` : stamp.music,
  );
  const [unfolded, setUnfolded] = useState<ReadonlySet<string>>(new Set());
  const { engraving } = state;
  const drawn = useMemo(
    () => (isAsRead ? noCuts : looked ? [...cuts, looked] : cuts),
    [isAsRead, cuts, looked],
  );
  const rows = useMemo(() => {
    const systems = engraving?.systems ?? [];
    if (reading !== "folded") return plainRows(systems);
    return foldRows(
      systems,
      cuts.filter(({ id }) => !unfolded.has(id)),
    );
  }, [engraving, reading, cuts, unfolded]);
  const pointer = useMarking(marking, onMark);
  const takeTo = useView(scroller, rows, onView);
  // With the next frame, which measures the page anyway, and not within the press that asked for it.
  // biome-ignore lint/correctness/useExhaustiveDependencies: each turn goes there once, also when the rows have changed
  useEffect(() => {
    const frame = requestAnimationFrame(() => takeTo(goTo.bar, goTo.edge));
    return () => cancelAnimationFrame(frame);
  }, [takeTo, goTo.turn, engraving?.key, reading]);
  const marked = useMemo(() => marking && spanOf(marking), [marking]);

  return (
    <section
      ref={scroller}
      className={styles.scroller}
      aria-label="Score"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: an area that scrolls must be reachable by key
      tabIndex={0}
      onKeyDown={onKey}
      {...pointer}
    >
      {state.status === "working" && <Working progress={state.progress} isAgain={engraving !== null} />}
      {state.status === "failed" && (
        <SayProblem>
          {state.sentence}{" "}
          <Button small onClick={retry}>
            Try again
          </Button>
        </SayProblem>
      )}
      <ol ref={room} className={styles.rows}>
        {rows.map((row) =>
          row.kind === "fold" ? (
            <FoldLine
              key={`fold ${row.cut.id}`}
              fold={row}
              firstLabel={bars[row.firstBar]?.label ?? ""}
              lastLabel={bars[row.lastBar]?.label ?? ""}
              onUnfold={() => setUnfolded((last) => new Set(last).add(row.cut.id))}
            />
          ) : (
            <ScoreSystem
              key={`${engraving?.key} ${row.system.index} ${row.firstBar}`}
              row={row}
              url={`/api/pieces/${pieceId}/engraving/${engraving?.key}/${row.system.index}`}
              root={scroller}
              unit={row.system.width / (width ?? row.system.width)}
              cuts={drawn}
              pins={pins}
              cues={cues}
              marked={marked}
              shown={isAsRead ? null : shown}
              playing={playing}
              bars={bars}
              onPin={onPin}
              onCue={onCue}
            />
          ),
        )}
      </ol>
      {playing && <TurnPages playing={playing} scroller={scroller} takeTo={takeTo} />}
    </section>
  );
}

const noCuts: readonly ScoreCut[] = [];

function Working({ progress, isAgain }: { progress: number | null; isAgain: boolean }) {
  const words = isAgain ? "Engraving it anew." : "Engraving the score. The strip and the cuts are ready.";
  return (
    <div className={styles.working}>
      <Progress words={words} done={progress} />
    </div>
  );
}
