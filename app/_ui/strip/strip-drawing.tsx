import { memo, useId, useMemo } from "react";
import { sayClock } from "@/lib/score/say-clock";
import { commaPath } from "../music-sign";
import { AirMarks, WishMarks } from "./air-marks";
import { placeBarLabels, placeBarTicks } from "./bar-labels";
import { type CutShape, placeCuts } from "./cut-shapes";
import { HandsBars, HandsTempi, HandsTriangles } from "./hands-marks";
import { placeMinutes } from "./minutes";
import { placeBreaths, placeNotes } from "./note-pins";
import { PencilMarks } from "./pencil-marks";
import type { StripRows } from "./rows";
import type { Scale } from "./scale";
import { placePlayed, placeRests } from "./solo-row";
import { StripCutMark } from "./strip-cut-mark";
import styles from "./strip-drawing.module.css";
import type { StripPiece } from "./strip-piece";
import { placeLetters, placeTempi } from "./top-labels";

interface Drawing {
  piece: StripPiece;
  scale: Scale;
  rows: StripRows;
  isAsPlayed: boolean;
  openCutId: string | null;
}

/** Everything on the strip that stays where it is while the score moves under it. 1 unit is 1 px. */
export const StripDrawing = memo(function StripDrawing(props: Drawing) {
  const { piece, scale, rows, isAsPlayed, openCutId } = props;
  const cuts = useMemo(() => placeCuts(piece.cuts, scale, isAsPlayed), [piece, scale, isAsPlayed]);
  const hatch = useId();
  return (
    <>
      <Hatches id={hatch} />
      <TuttiTints piece={piece} scale={scale} rows={rows} />
      <RowRules rows={rows} width={scale.width} />
      <TopLabels piece={piece} scale={scale} rows={rows} />
      <SoloRow piece={piece} scale={scale} y={rows.solo + 21} />
      <AirMarks piece={piece} scale={scale} rows={rows} />
      <HandsBars piece={piece} scale={scale} rows={rows} />
      <PencilMarks pencils={piece.pencils} scale={scale} rows={rows} />
      {cuts.map((shape) => (
        <StripCutMark
          key={`${shape.cut.id}-${shape.gapIndex}`}
          shape={shape}
          rows={rows}
          hatch={hatch}
          isOpenCard={shape.cut.id === openCutId}
        />
      ))}
      <Marks piece={piece} scale={scale} rows={rows} cuts={cuts} />
      <WishMarks piece={piece} scale={scale} rows={rows} />
      <HandsTriangles piece={piece} scale={scale} rows={rows} />
      <HandsTempi piece={piece} scale={scale} rows={rows} />
    </>
  );
});

function Hatches({ id }: { id: string }) {
  const angles = { agreed: 45, so: 45, pf: -45, graphite: 45 };
  return (
    <defs>
      {Object.entries(angles).map(([party, angle]) => (
        <pattern
          key={party}
          id={`${id}-${party}`}
          width="7"
          height="7"
          patternUnits="userSpaceOnUse"
          patternTransform={`rotate(${angle})`}
        >
          <path className={styles[`hatch-${party}`]} d="M0 0V7" />
        </pattern>
      ))}
    </defs>
  );
}

type Part = Pick<Drawing, "piece" | "scale" | "rows">;

function TuttiTints({ piece, scale, rows }: Part) {
  return piece.tuttis.map((tutti) => (
    <rect
      key={tutti.from}
      className={styles.tint}
      x={scale.x(tutti.from)}
      y={rows.solo}
      width={Math.max(0, scale.x(tutti.to) - scale.x(tutti.from))}
      height={rows.axis - rows.solo}
    />
  ));
}

function RowRules({ rows, width }: { rows: StripRows; width: number }) {
  const tops = [rows.solo, rows.air, rows.hands, rows.breaths, rows.notes].filter((top) => top !== null);
  return (
    <>
      <path className={styles.rule} d={tops.map((top) => `M0 ${top}H${width}`).join("")} />
      <path className={styles.axis} d={`M0 ${rows.axis}H${width}`} />
    </>
  );
}

function TopLabels({ piece, scale, rows }: Part) {
  const labels = useMemo(() => placeBarLabels(piece.bars, scale), [piece, scale]);
  const ticks = useMemo(() => placeBarTicks(piece.bars, labels, scale), [piece, labels, scale]);
  const { tempo, bars, letters } = rows;
  return (
    <>
      {tempo !== null &&
        placeTempi(piece.tempi, scale).map((label) => (
          <text key={label.x} className={styles.tempo} x={label.x} y={tempo + 14}>
            {label.words}
            {label.beats !== null && (
              <tspan className={styles.beats} dx={label.words === "" ? 0 : 5}>
                {label.beats}
              </tspan>
            )}
          </text>
        ))}
      {placeLetters(piece.letters, scale).map((box) => (
        <g key={`${box.x}-${box.letter.text}`} className={styles.letter}>
          {box.text !== "" && (
            <>
              <rect x={box.x - 0.5} y={letters} width={box.width} height={16} />
              <text x={box.x + box.width / 2 - 0.5} y={letters + 12.5}>
                {box.text}
              </text>
            </>
          )}
          <path d={`M${box.x} ${letters + 16}v3.5`} />
        </g>
      ))}
      {bars !== null && (
        <>
          <path
            className={styles.tick}
            d={ticks.map((tick) => `M${tick.x.toFixed(1)} ${bars + 16}v${tick.isLong ? -5 : -2.5}`).join("")}
          />
          {labels.map((label) => (
            <text key={label.x} className={styles.barNumber} x={label.x + 2} y={bars + 10}>
              {label.text}
            </text>
          ))}
        </>
      )}
    </>
  );
}

function SoloRow({ piece, scale, y }: { piece: StripPiece; scale: Scale; y: number }) {
  const played = useMemo(() => placePlayed(piece.solo, piece.breaths, piece.cuts, scale), [piece, scale]);
  const rests = useMemo(() => placeRests(piece.tuttis, piece.cuts, scale), [piece, scale]);
  return (
    <>
      {played.map((box) => (
        <g key={box.stretch.from}>
          <rect className={styles.plays} x={box.x} y={y - 11} width={box.width} height={22} />
          {box.notches.map((x) => (
            <rect key={x} className={styles.notch} x={x - 0.9} y={y - 11} width={1.8} height={22} />
          ))}
          {box.label && (
            <text className={styles.playsLabel} x={box.labelX} y={y + 4}>
              {box.label}
            </text>
          )}
        </g>
      ))}
      {rests.map((rest) => (
        <g key={rest.tutti.from}>
          {rest.isStroke ? (
            <path className={styles.restEnd} d={`M${(rest.x + rest.end) / 2} ${y - 7}v14`} />
          ) : (
            <>
              <path className={styles.restBar} d={`M${rest.x} ${y}H${rest.end}`} />
              <path className={styles.restEnd} d={`M${rest.x} ${y - 6}v12M${rest.end} ${y - 6}v12`} />
            </>
          )}
          <RestLabel label={rest.label} x={rest.labelX} y={y} />
        </g>
      ))}
    </>
  );
}

function RestLabel({
  label,
  x,
  y,
}: {
  label: ReturnType<typeof placeRests>[number]["label"];
  x: number;
  y: number;
}) {
  if (label === null) return null;
  if (label.kind === "line") {
    return (
      <text className={styles.restLine} x={x} y={y - 10}>
        <tspan className={styles.restCount}>{label.bars}</tspan> bars · {label.time}
      </text>
    );
  }
  return (
    <>
      <text className={styles.restNumber} x={x} y={y - 9}>
        {label.bars}
      </text>
      {label.kind === "stacked" && (
        <text className={styles.restTime} x={x} y={y + 19}>
          {label.time}
        </text>
      )}
    </>
  );
}

function Marks({ piece, scale, rows, cuts }: Part & { cuts: readonly CutShape[] }) {
  const gone = cuts.filter((shape) => shape.cut.state === "agreed").flatMap((shape) => shape.cut.gaps);
  const { breaths, notes } = rows;
  return (
    <>
      {breaths !== null &&
        placeBreaths(piece.breaths, gone, scale).map(({ x, breath }) => (
          <path
            key={x}
            className={breath.isAgreed ? styles.breath : styles.openBreath}
            transform={`translate(${x - 3} ${breaths + 4}) scale(0.36)`}
            d={commaPath}
          />
        ))}
      {notes !== null &&
        placeNotes(piece.notes, scale).map((pin) => (
          <g key={pin.x} className={styles[`pin-${pin.ink}`]} transform={`translate(${pin.x} ${notes + 11})`}>
            {pin.ink === "so" ? (
              <circle r={8} />
            ) : (
              <rect x={-7.5} y={-7.5} width={15} height={15} rx={pin.ink === "pf" ? 0 : 4} />
            )}
            <text y={4}>{pin.notes.length}</text>
          </g>
        ))}
    </>
  );
}

/** The clock under the strip; apart from the rest because it makes room for the view frame's label. */
export function StripMinutes({
  totalSeconds,
  width,
  y,
  covered,
}: {
  totalSeconds: number;
  width: number;
  y: number;
  covered: { from: number; to: number } | null;
}) {
  const marks = placeMinutes(totalSeconds, width, covered);
  const isEndCovered = covered !== null && covered.to > width - 34;
  return (
    <>
      <path className={styles.tick} d={marks.map((mark) => `M${mark.x.toFixed(1)} ${y}v4`).join("")} />
      {marks.map(
        (mark) =>
          mark.text !== null && (
            <text key={mark.x} className={styles.minute} x={mark.x + 3} y={y + 13}>
              {mark.text}
            </text>
          ),
      )}
      {!isEndCovered && (
        <text className={styles.total} x={width} y={y + 13}>
          {sayClock(totalSeconds)}
        </text>
      )}
    </>
  );
}
