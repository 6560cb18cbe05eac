"use client";

import { type KeyboardEvent, useEffect, useMemo, useRef } from "react";
import type { DeskBar } from "@/app/_data/desk/desk";
import { Button } from "@/app/_ui/button";
import { Progress } from "@/app/_ui/progress";
import { SayProblem } from "@/app/_ui/say";
import { type EngravedSystem, layoutFor } from "@/app/_ui/score/engraving";
import type { BarSpan } from "@/app/_ui/score/mark-bars";
import { greyPlaces, type ScoreCut } from "@/app/_ui/score/score-cut";
import { useEngraving } from "@/app/_ui/score/use-engraving";
import { useView } from "@/app/_ui/score/use-view";
import { useWidth } from "@/app/_ui/strip/use-width";
import type { Bracket } from "./brackets";
import type { BreathMark } from "./breath-marks";
import styles from "./solo-part.module.css";
import type { NoteEnds } from "./solo-places";
import { type RestWords, SoloSystem } from "./solo-system";

/**
 * The solo part alone, engraved, with the breaths over it and the time from breath to breath under it. It scrolls by
 * itself.
 *
 * @param goTo a bar that is taken to the top each time `turn` changes.
 * @param stamp changes when the file or the roles of its parts do.
 */
export function SoloPart({
  pieceId,
  stamp,
  bars,
  ends,
  marks,
  brackets,
  rests,
  cuts,
  cursorNote,
  goTo,
  onNote,
  onView,
  onKey,
}: {
  pieceId: string;
  stamp: string;
  bars: readonly DeskBar[];
  ends: NoteEnds;
  marks: readonly BreathMark[];
  brackets: readonly Bracket[];
  rests: readonly RestWords[];
  cuts: readonly ScoreCut[];
  cursorNote: { readonly id: string; readonly barIndex: number } | null;
  goTo: { readonly bar: number; readonly turn: number };
  onNote: (noteId: string) => void;
  onView: (view: BarSpan) => void;
  onKey: (event: KeyboardEvent) => void;
}) {
  const scroller = useRef<HTMLElement>(null);
  const [room, width] = useWidth<HTMLOListElement>();
  const layout = width === null ? null : layoutFor(width);
  const { state, retry } = useEngraving(pieceId, "solo", layout, stamp);
  const systems = useMemo(
    () => placeSystems(state.engraving?.systems ?? [], bars.length, cuts),
    [state.engraving, bars.length, cuts],
  );
  const firstBars = useMemo(() => systems.map(({ system }) => system.firstBarIndex), [systems]);
  const takeTo = useView(scroller, systems, onView);
  const key = state.engraving?.key;
  // biome-ignore lint/correctness/useExhaustiveDependencies: each turn goes there once, and again on another page
  useEffect(() => {
    if (goTo.turn > 0) takeTo(goTo.bar, "top");
  }, [takeTo, goTo.turn, key]);
  useKeepCursorInView(scroller, cursorNote?.barIndex ?? null);
  return (
    <section
      ref={scroller}
      className={styles.scroller}
      aria-label="Solo part"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: an area that scrolls must be reachable by key
      tabIndex={0}
      onKeyDown={onKey}
    >
      {state.status === "working" && (
        <div className={styles.working}>
          <Progress
            words="Engraving the solo part. The strip and the rests are ready."
            done={state.progress}
          />
        </div>
      )}
      {state.status === "failed" && (
        <SayProblem>
          {state.sentence}{" "}
          <Button small onClick={retry}>
            Try again
          </Button>
        </SayProblem>
      )}
      <ol ref={room} className={styles.rows}>
        {systems.map(({ system, lastBar, grey }) => (
          <SoloSystem
            key={`${key} ${system.index}`}
            system={system}
            lastBar={lastBar}
            url={`/api/pieces/${pieceId}/engraving/${key}/${system.index}`}
            root={scroller}
            unit={system.width / (width ?? system.width)}
            bars={bars}
            ends={ends}
            marks={marks}
            brackets={brackets}
            rests={rests}
            firstBars={firstBars}
            greyBars={grey}
            cursorNote={
              cursorNote && cursorNote.barIndex >= system.firstBarIndex && cursorNote.barIndex <= lastBar
                ? cursorNote.id
                : null
            }
            onNote={onNote}
          />
        ))}
      </ol>
    </section>
  );
}

/** Each system with the last bar it stands for, and the places of bars that a cut takes wholly. */
function placeSystems(systems: readonly EngravedSystem[], barCount: number, cuts: readonly ScoreCut[]) {
  return systems.map((system, index) => {
    const lastBar = (systems[index + 1]?.firstBarIndex ?? barCount) - 1;
    const isOneBar = (place: number) =>
      (system.bars[place + 1]?.barIndex ?? lastBar + 1) === (system.bars[place]?.barIndex ?? 0) + 1;
    return { system, lastBar, grey: greyPlaces(system, cuts).filter(isOneBar) };
  });
}

/** Walking along the notes scrolls no more than it must. */
function useKeepCursorInView(scroller: React.RefObject<HTMLElement | null>, barIndex: number | null) {
  useEffect(() => {
    const element = scroller.current;
    if (!element || barIndex === null) return;
    const row = [...element.querySelectorAll("[data-first-bar]")].find(
      (one) =>
        Number(one.getAttribute("data-first-bar")) <= barIndex &&
        Number(one.getAttribute("data-last-bar")) >= barIndex,
    );
    row?.scrollIntoView({ block: "nearest" });
  }, [scroller, barIndex]);
}
