"use client";

import { memo, type RefObject, useRef, useState } from "react";
import { classNames } from "../class-names";
import type { Playing } from "../playing";
import { Spoken } from "../spoken";
import type { BarBox } from "./engraving";
import type { SystemRow } from "./fold";
import type { BarSpan } from "./mark-bars";
import { saySoloBar } from "./say-solo";
import { ScoreCueMark, type ScoreCues } from "./score-cue";
import { cutOnSystem, greyPlaces, type ScoreCut } from "./score-cut";
import { ScoreCutMark } from "./score-cut-mark";
import { type BarPin, ScorePin } from "./score-pin";
import styles from "./score-system.module.css";
import { SystemDrawing } from "./system-drawing";
import { SystemPlaying } from "./system-playing";
import { useNear } from "./use-near";

/** What is measured on the screen differs by less each time it is drawn, in units; drawing anew for it would never end. */
const headNoise = 8;

/** What is pointed at on the score. */
export interface ShownNotes {
  /** Bars by index. */
  readonly bars: readonly number[];
  readonly noteIds: readonly string[];
}

const noNotes: readonly string[] = [];

interface SystemProps {
  row: SystemRow;
  url: string;
  /** The element that scrolls. */
  root: RefObject<Element | null>;
  unit: number;
  cuts: readonly ScoreCut[];
  pins: readonly BarPin[];
  cues: ScoreCues;
  marked: BarSpan | null;
  shown?: ShownNotes | null;
  playing?: Playing | null;
  /** Label and solo of every bar of the piece, by index. */
  bars: readonly { readonly label: string; readonly solo: string }[];
  onPin: (ids: readonly string[]) => void;
  onCue: (id: string) => void;
}

const isOnRow = (barIndex: number, row: SystemRow) => barIndex >= row.firstBar && barIndex <= row.lastBar;
const cutsOnRow = ({ cuts, row }: SystemProps) =>
  cuts.filter((cut) => cut.firstBar <= row.lastBar && cut.lastBar >= row.firstBar);
const pinsOnRow = ({ pins, row }: SystemProps) => pins.filter(({ barIndex }) => isOnRow(barIndex, row));
const cuesOnRow = ({ cues, row }: SystemProps) => cues.list.filter(({ at }) => isOnRow(at.barIndex, row));
/** First and last bar that are marked on the row. */
const markedOnRow = ({ marked, row }: SystemProps) =>
  marked === null || marked.firstBar > row.lastBar || marked.lastBar < row.firstBar
    ? []
    : [Math.max(marked.firstBar, row.firstBar), Math.min(marked.lastBar, row.lastBar)];

const areSame = (a: readonly unknown[], b: readonly unknown[]) =>
  a.length === b.length && a.every((one, at) => one === b[at]);

/** Whether what has changed stands on other rows. */
function isDrawnAlike(last: SystemProps, next: SystemProps): boolean {
  const { cuts, pins, cues, marked, ...others } = next;
  const own = Object.keys(others) as (keyof typeof others)[];
  return (
    own.every((name) => last[name] === next[name]) &&
    last.cues.staff === next.cues.staff &&
    [cutsOnRow, pinsOnRow, cuesOnRow, markedOnRow].every((read) => areSame(read(last), read(next)))
  );
}

/** One row of the score: the engraved system, and over it what the players marked. */
export const ScoreSystem = memo(function ScoreSystem({
  row,
  url,
  root,
  unit,
  cuts,
  pins,
  cues,
  marked,
  shown = null,
  playing = null,
  bars,
  onPin,
  onCue,
}: SystemProps) {
  const element = useRef<HTMLLIElement>(null);
  const isNear = useNear(element, root);
  const [head, setHead] = useState(0);
  const hearHead = (told: number) => setHead((last) => (Math.abs(told - last) < headNoise ? last : told));
  const { system } = row;
  const [x, width] = [row.x - head, row.width + head];
  const visible = system.bars.filter(({ barIndex }) => barIndex >= row.firstBar && barIndex <= row.lastBar);
  const here = cuts.filter((cut) => cut.firstBar <= row.lastBar && cut.lastBar >= row.firstBar);
  const hasEnds = here.some((cut) => {
    const on = cutOnSystem(system, cut);
    return on !== null && (on.startX !== null || on.endX !== null);
  });
  const label = (index: number) => bars[index]?.label ?? "";
  return (
    <li
      ref={element}
      className={classNames(styles.row, hasEnds && styles.hasEnds)}
      data-first-bar={row.firstBar}
      data-last-bar={row.lastBar}
    >
      <div
        className={styles.piece}
        style={{ width: `${(width / system.width) * 100}%`, aspectRatio: `${width} / ${system.height}` }}
      >
        <SystemDrawing
          url={url}
          isNear={isNear}
          x={row.x}
          width={row.width}
          height={system.height}
          firstPlace={system.bars.findIndex(({ barIndex }) => barIndex === row.firstBar)}
          lastPlace={system.bars.findLastIndex(({ barIndex }) => barIndex === row.lastBar)}
          head={head}
          onHead={hearHead}
          greyBars={greyPlaces(system, here)}
          noteIds={shown?.noteIds ?? noNotes}
        />
        <StaffLines bars={visible} viewBox={`${x} 0 ${width} ${system.height}`} />
        {/* biome-ignore lint/a11y/noSvgWithoutTitle: what it shows is said by the list below and by the cuts' cards */}
        <svg className={styles.over} viewBox={`${x} 0 ${width} ${system.height}`}>
          {visible.map((box) => (
            <rect
              key={box.barIndex}
              className={classNames(
                styles.bar,
                marked &&
                  box.barIndex >= marked.firstBar &&
                  box.barIndex <= marked.lastBar &&
                  styles.markedBar,
              )}
              data-bar={box.barIndex}
              x={box.x}
              y={box.top - 14 * unit}
              width={box.width}
              height={box.bottom - box.top + 28 * unit}
            />
          ))}
          {visible.map(
            (box) =>
              shown?.bars.includes(box.barIndex) && (
                <path key={box.barIndex} className={styles.shownBar} d={bracketAround(box, unit)} />
              ),
          )}
          {here.map((cut) => (
            <ScoreCutMark key={cut.id} system={{ ...system, bars: visible }} cut={cut} unit={unit} />
          ))}
          {cues.list.map((cue) => {
            const box = visible.find(({ barIndex }) => barIndex === cue.at.barIndex);
            return (
              box && (
                <ScoreCueMark
                  key={cue.id}
                  cue={cue}
                  staff={cues.staff}
                  box={box}
                  unit={unit}
                  onOpen={() => onCue(cue.id)}
                />
              )
            );
          })}
          {pins.map((pin) => {
            const box = visible.find(({ barIndex }) => barIndex === pin.barIndex);
            return (
              box && (
                <ScorePin
                  key={pin.barIndex}
                  pin={pin}
                  box={box}
                  unit={unit}
                  label={`${pin.ids.length === 1 ? "1 comment" : `${pin.ids.length} comments`} at bar ${label(pin.barIndex)}`}
                  onOpen={() => onPin(pin.ids)}
                />
              )
            );
          })}
        </svg>
        {playing && (
          <SystemPlaying
            playing={playing}
            boxes={visible}
            shown={{ x, width, height: system.height }}
            margin={14 * unit}
          />
        )}
        {isNear && (
          <Spoken>
            {`Bars ${label(row.firstBar)} to ${label(row.lastBar)}. `}
            {visible
              .map(({ barIndex }) => saySoloBar(label(barIndex), bars[barIndex]?.solo ?? ""))
              .join("; ")}
            .
          </Spoken>
        )}
      </div>
    </li>
  );
}, isDrawnAlike);

/** Brackets over and under a bar that is pointed at. */
function bracketAround({ x, width, top, bottom }: BarBox, unit: number): string {
  const [left, right, foot] = [x + 3 * unit, x + width - 3 * unit, 7 * unit];
  const [high, low] = [top - 12 * unit, bottom + 12 * unit];
  return `M${left} ${high + foot}V${high}H${right}v${foot}M${left} ${low - foot}V${low}H${right}v${-foot}`;
}

/** Empty staves, until the drawing is there. */
function StaffLines({ bars, viewBox }: { bars: readonly BarBox[]; viewBox: string }) {
  const lines = bars.flatMap(({ x, width, staves }) =>
    staves.flatMap(({ top, bottom }) =>
      [0, 1, 2, 3, 4].map((line) => `M${x} ${top + ((bottom - top) * line) / 4}h${width}`),
    ),
  );
  return (
    <svg className={styles.staves} viewBox={viewBox} aria-hidden="true">
      <path d={lines.join("")} />
    </svg>
  );
}
