"use client";

import { memo, type PointerEvent, type RefObject, useMemo, useRef, useState } from "react";
import type { DeskBar } from "@/app/_data/desk/desk";
import { measureNotes, type NoteBox } from "@/app/_ui/score/compose-system";
import type { EngravedSystem } from "@/app/_ui/score/engraving";
import { saySoloBar } from "@/app/_ui/score/say-solo";
import { SystemDrawing } from "@/app/_ui/score/system-drawing";
import { useNear } from "@/app/_ui/score/use-near";
import { Spoken } from "@/app/_ui/spoken";
import { BracketLine, bracketRoom } from "./bracket-line";
import type { Bracket } from "./brackets";
import { BreathComma } from "./breath-comma";
import type { BreathMark } from "./breath-marks";
import { commaX, commaY, type DrawnSystem, endX, noteAtX } from "./place-on-system";
import type { NoteEnds } from "./solo-places";
import styles from "./solo-system.module.css";

/** What a many-bar rest is said to last. */
export interface RestWords {
  readonly firstBar: number;
  readonly lastBar: number;
  readonly words: string;
}

const noNotes: readonly string[] = [];
const untold = () => {};

/** One line of the solo part: touch it between two notes, or on a note, to put a breath in after it. */
export const SoloSystem = memo(function SoloSystem({
  system,
  lastBar,
  url,
  root,
  unit,
  bars,
  ends,
  marks,
  brackets,
  rests,
  firstBars,
  cursorNote,
  greyBars,
  onNote,
}: {
  system: EngravedSystem;
  lastBar: number;
  url: string;
  root: RefObject<Element | null>;
  /** Of the drawing, for one pixel of the page. */
  unit: number;
  bars: readonly Pick<DeskBar, "label" | "length" | "beats" | "solo">[];
  ends: NoteEnds;
  marks: readonly BreathMark[];
  brackets: readonly Bracket[];
  rests: readonly RestWords[];
  /** With which each system begins. */
  firstBars: readonly number[];
  /** Of the note that the keys are at; null elsewhere. */
  cursorNote: string | null;
  greyBars: readonly number[];
  /** Touched: on this note, or between it and the next. */
  onNote: (noteId: string) => void;
}) {
  const element = useRef<HTMLLIElement>(null);
  const isNear = useNear(element, root);
  const [notes, setNotes] = useState<readonly NoteBox[]>([]);
  const [ghost, setGhost] = useState<string | null>(null);
  const drawn = useMemo((): DrawnSystem => ({ system, lastBar, notes }), [system, lastBar, notes]);
  const noteUnder = (event: PointerEvent<SVGSVGElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const x = ((event.clientX - box.left) / box.width) * system.width;
    return noteAtX(notes, x, 4 * unit)?.id ?? null;
  };
  // What is far from the view is not drawn: a touch must not wait for it.
  const placed = marks.flatMap((mark) => {
    const isHere = isNear && mark.at.barIndex >= system.firstBarIndex && mark.at.barIndex <= lastBar + 1;
    const x = isHere ? placeX(drawn, bars, ends, mark) : null;
    if (x === null) return [];
    const y = mark.noteId ? commaY(drawn, mark.noteId) : (system.bars[0]?.top ?? 0);
    return [{ mark, x, y }];
  });
  const label = (index: number) => bars[index]?.label ?? "";
  const ghostX = ghost === null ? null : commaX(notes, ghost);
  const cursorX = cursorNote === null ? null : commaX(notes, cursorNote);
  const top = system.bars[0]?.top ?? 0;
  return (
    <li
      ref={element}
      className={styles.row}
      data-first-bar={system.firstBarIndex}
      data-last-bar={lastBar}
      style={{ paddingBottom: bracketRoom }}
    >
      <div className={styles.piece} style={{ aspectRatio: `${system.width} / ${system.height}` }}>
        <SystemDrawing
          url={url}
          isNear={isNear}
          x={0}
          width={system.width}
          height={system.height}
          firstPlace={0}
          lastPlace={system.bars.length - 1}
          head={0}
          greyBars={greyBars}
          noteIds={noNotes}
          onHead={untold}
          onDrawn={(body) => setNotes(measureNotes(body))}
        />
        {/* biome-ignore lint/a11y/noSvgWithoutTitle: said by the bar under the part */}
        {/* biome-ignore lint/a11y/useKeyWithClickEvents: the part hears the keys, and the bar under it has buttons */}
        <svg
          className={styles.over}
          viewBox={`0 0 ${system.width} ${system.height}`}
          data-notes={notes.length > 0 || undefined}
          onPointerMove={(event) => event.pointerType === "mouse" && setGhost(noteUnder(event))}
          onPointerLeave={() => setGhost(null)}
          onClick={(event) => {
            const note = noteUnder(event as unknown as PointerEvent<SVGSVGElement>);
            if (note !== null) onNote(note);
          }}
        >
          <rect className={styles.reach} width={system.width} height={system.height} />
          {cursorX !== null && (
            <rect
              className={styles.cursor}
              x={cursorX - 11 * unit}
              y={Math.min(top, commaY(drawn, cursorNote ?? "")) - 32 * unit}
              width={22 * unit}
              height={32 * unit}
              rx={4 * unit}
            />
          )}
          {ghostX !== null && ghost !== null && !placed.some(({ mark }) => mark.noteId === ghost) && (
            <BreathComma x={ghostX} y={commaY(drawn, ghost)} unit={unit} look="ghost" />
          )}
          {placed.map(({ mark, x, y }) => (
            <BreathComma
              key={mark.key}
              x={x}
              y={y}
              unit={unit}
              look={mark.kind === "new" ? mark.ink : mark.kind}
              title={mark.title}
            />
          ))}
        </svg>
        {isNear && (
          <BracketLine
            drawn={drawn}
            bars={bars}
            ends={ends}
            brackets={brackets}
            rests={rests}
            firstBars={firstBars}
            unit={unit}
          />
        )}
        {isNear && (
          <Spoken>
            {`Bars ${label(system.firstBarIndex)} to ${label(lastBar)}. `}
            {system.bars
              .map(({ barIndex }) => saySoloBar(label(barIndex), bars[barIndex]?.solo ?? ""))
              .join("; ")}
            .
          </Spoken>
        )}
      </div>
    </li>
  );
});

function placeX(
  drawn: DrawnSystem,
  bars: readonly Pick<DeskBar, "label" | "length" | "beats">[],
  ends: NoteEnds,
  { noteId, at }: BreathMark,
): number | null {
  if (noteId !== null) return commaX(drawn.notes, noteId);
  return at.barIndex > drawn.lastBar ? null : endX(bars, ends, drawn, at);
}
