"use client";

import { type KeyboardEvent, useEffect, useMemo, useRef, useState } from "react";
import { classNames } from "../class-names";
import { WithFlats } from "../music-sign";
import type { Playing } from "../playing";
import { type StripKind, stackRows } from "./rows";
import { makeScale } from "./scale";
import styles from "./strip.module.css";
import { StripDrawing, StripMinutes } from "./strip-drawing";
import { StripFrame } from "./strip-frame";
import { StripLooks } from "./strip-looks";
import type { Stretch, StripBar, StripLook, StripPiece } from "./strip-piece";
import { StripPlaying } from "./strip-playing";
import { findTargets, type Meant } from "./targets";
import { usePointer } from "./use-pointer";
import { useWidth } from "./use-width";
import { findBarAt, findViewStretch } from "./view-frame";
import { ZoomControl, zoomSteps } from "./zoom-control";

/** Drawn before the width is known: on the server and until the first measurement. */
const firstWidth = 960;

/**
 * The whole piece on one band in proportion to time. It is one stop of the tab key; the arrows walk along it, a tap sends
 * the score to the bar under the finger, and the frame that shows what the score shows can be dragged.
 */
export function Strip({
  piece,
  kind,
  view,
  cursor,
  marked,
  openCutId,
  looks = [],
  isAsPlayed = false,
  playing = null,
  saysHere,
  onGo,
  onMean,
  onKey,
}: {
  piece: StripPiece;
  kind: StripKind;
  /** First and last bar on view in the score, by index. */
  view: { firstBar: number; lastBar: number } | null;
  /** Where the reader is, in seconds of the piece as written. */
  cursor: number;
  /** The bars marked for a comment or a cut. */
  marked: Stretch | null;
  openCutId: string | null;
  /** Where the others look. */
  looks?: readonly StripLook[];
  /** Agreed cuts are closed to a seam. */
  isAsPlayed?: boolean;
  /** Tells where music is that is being listened to. */
  playing?: Playing | null;
  /** The cursor's place in words, for those who hear the page. */
  saysHere: string;
  onGo: (bar: StripBar) => void;
  onMean: (meant: Meant) => void;
  onKey: (event: KeyboardEvent) => void;
}) {
  const [room, measured] = useWidth<HTMLDivElement>();
  const [zoom, setZoom] = useState<(typeof zoomSteps)[number]>(1);
  const width = Math.max(120, (measured ?? firstWidth) - 2) * zoom;
  const rows = useMemo(() => stackRows(kind), [kind]);
  const closed = useMemo(
    () =>
      isAsPlayed ? piece.cuts.filter((cut) => cut.state === "agreed").flatMap((cut) => [...cut.gaps]) : [],
    [piece, isAsPlayed],
  );
  const scale = useMemo(
    () =>
      makeScale(
        piece.totalSeconds,
        width,
        [...closed].sort((a, b) => a.from - b.from),
      ),
    [piece, width, closed],
  );
  const targets = useMemo(
    () => findTargets(piece, scale, rows, isAsPlayed),
    [piece, scale, rows, isAsPlayed],
  );
  const shown = view && findViewStretch(piece.bars, view.firstBar, view.lastBar, cursor);
  const frame = shown && { from: scale.x(shown.from), to: scale.x(shown.to) };
  const covered = frame && { from: (frame.from + frame.to) / 2 - 34, to: (frame.from + frame.to) / 2 + 34 };
  const pointer = usePointer({ piece, scale, targets, frame, onGo, onMean });
  useKeepInView(room, frame, zoom);

  const hovered = pointer.hover === null ? null : findBarAt(piece.bars, scale.secondAt(pointer.hover));
  const isWide = kind === "desk" || kind === "air" || kind === "hands";
  return (
    <div className={styles.strip} data-kind={isWide ? "desk" : "stand"}>
      {isWide && <RowNames rows={rows} soloName={piece.soloName} />}
      <div
        ref={room}
        className={classNames(styles.room, zoom > 1 && styles.zoomed)}
        onWheel={(event) => {
          if (!event.ctrlKey && !event.metaKey) return;
          const next = zoomSteps[zoomSteps.indexOf(zoom) + (event.deltaY < 0 ? 1 : -1)];
          if (next) setZoom(next);
        }}
      >
        <div
          className={styles.band}
          style={{ width, height: rows.height }}
          role="slider"
          tabIndex={0}
          aria-label={`The whole piece, ${piece.bars.length} bars. Arrows go by bar, with Shift by letter, with Alt by cut. Question mark lists the keys.`}
          aria-valuemin={0}
          aria-valuemax={Math.round(piece.totalSeconds)}
          aria-valuenow={Math.round(cursor)}
          aria-valuetext={saysHere}
          onKeyDown={onKey}
          {...pointer.handlers}
        >
          <svg className={styles.drawing} width={width} height={rows.height} aria-hidden="true">
            <StripDrawing
              piece={piece}
              scale={scale}
              rows={rows}
              isAsPlayed={isAsPlayed}
              openCutId={openCutId}
            />
            <StripMinutes
              totalSeconds={piece.totalSeconds - closed.reduce((sum, gap) => sum + gap.to - gap.from, 0)}
              width={width}
              y={rows.axis}
              covered={covered}
            />
            <StripLooks looks={looks} scale={scale} rows={rows} label={covered} />
            <StripFrame
              rows={rows}
              frame={frame}
              label={view && frameLabel(piece, view)}
              cursorX={scale.x(cursor)}
              marked={marked && { from: scale.x(marked.from), to: scale.x(marked.to) }}
              hover={hovered && { x: scale.x(hovered.from), label: hovered.label }}
              width={width}
            />
          </svg>
          {playing && <StripPlaying playing={playing} scale={scale} rows={rows} />}
        </div>
      </div>
      {isWide && <ZoomControl zoom={zoom} onChange={setZoom} />}
    </div>
  );
}

function frameLabel(piece: StripPiece, view: { firstBar: number; lastBar: number }): string {
  const labelOf = (index: number) => piece.bars.find((bar) => bar.barIndex === index)?.label ?? "";
  const [first, last] = [labelOf(view.firstBar), labelOf(view.lastBar)];
  return first === last ? first : `${first}–${last}`;
}

/** When the strip is wider than its room, it follows the frame. */
function useKeepInView(
  room: React.RefObject<HTMLDivElement | null>,
  frame: { from: number; to: number } | null,
  zoom: number,
) {
  const lastZoom = useRef(zoom);
  const middle = frame && (frame.from + frame.to) / 2;
  useEffect(() => {
    const element = room.current;
    if (!element || middle === null) return;
    const isOut = middle < element.scrollLeft + 40 || middle > element.scrollLeft + element.clientWidth - 40;
    if (isOut || lastZoom.current !== zoom) element.scrollLeft = middle - element.clientWidth / 2;
    lastZoom.current = zoom;
  }, [room, middle, zoom]);
}

function RowNames({ rows, soloName }: { rows: ReturnType<typeof stackRows>; soloName: string }) {
  const names: readonly (readonly [number | null, string])[] = [
    [rows.bars === null ? null : rows.bars + 11, "Bar"],
    [rows.solo + 25, soloName],
    [rows.air === null ? null : rows.air + 22, "Air"],
    [rows.hands === null ? null : rows.hands + 26, "Your hands"],
    [rows.breaths === null ? null : rows.breaths + 14, "Breaths"],
    [rows.notes === null ? null : rows.notes + 15, "Comments"],
    [rows.axis + 13, "Minutes"],
  ];
  return (
    <div className={styles.names} style={{ height: rows.height }} aria-hidden="true">
      {names.map(
        ([baseline, name]) =>
          baseline !== null && (
            <span key={name} style={{ top: baseline - 13 }}>
              <WithFlats text={name} />
            </span>
          ),
      )}
    </div>
  );
}
