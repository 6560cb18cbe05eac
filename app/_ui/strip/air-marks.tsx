import { useMemo } from "react";
import styles from "./air-marks.module.css";
import { placeAir, placeWishes } from "./air-row";
import { rowHeights, type StripRows } from "./rows";
import type { Scale } from "./scale";
import type { StripPiece } from "./strip-piece";

/** A figure at the right end stands before the top of its wedge, where there is room. */
const edgePixels = 30;

/** The row of air: a wedge for each breath, and the line of what is comfortable. */
export function AirMarks({ piece, scale, rows }: { piece: StripPiece; scale: Scale; rows: StripRows }) {
  const { air } = piece;
  const row = useMemo(() => air && placeAir(air, scale), [air, scale]);
  if (rows.air === null || !row) return null;
  const foot = rows.air + rowHeights.air - 1;
  const wedge = ({ x, end, height }: (typeof row.wedges)[number]) =>
    `M${x.toFixed(1)} ${foot}H${Math.max(end - 0.8, x + 0.8).toFixed(1)}V${(foot - height).toFixed(1)}Z`;
  const lineY = row.lineHeight === null ? null : foot - row.lineHeight;
  return (
    <>
      <path
        className={styles.air}
        d={row.wedges
          .filter(({ isLong }) => !isLong)
          .map(wedge)
          .join("")}
      />
      <path
        className={styles.long}
        d={row.wedges
          .filter(({ isLong }) => isLong)
          .map(wedge)
          .join("")}
      />
      {row.wedges.map(
        ({ figure, x, end, height }) =>
          figure !== null && (
            <text
              key={end}
              className={styles.figure}
              x={end + edgePixels > scale.width ? (x + end) / 2 : end + 3}
              textAnchor={end + edgePixels > scale.width ? "end" : "start"}
              y={foot - height + 9}
            >
              {figure}
            </text>
          ),
      )}
      {lineY !== null && (
        <>
          <path className={styles.comfortable} d={`M0 ${lineY}H${scale.width}`} />
          {rows.tempo !== null && (
            <text className={styles.comfortableText} x={-6} y={lineY + 4}>
              {air?.comfortableSeconds} s
            </text>
          )}
        </>
      )}
    </>
  );
}

/** Rests that the soloist asked for, each as a bracket up to its entry. */
export function WishMarks({ piece, scale, rows }: { piece: StripPiece; scale: Scale; rows: StripRows }) {
  const { wishes } = piece;
  const placed = useMemo(() => (wishes ? placeWishes(wishes, scale) : []), [wishes, scale]);
  if (rows.breaths === null) return null;
  const y = rows.breaths + 15;
  return placed.map(({ x, end, text, wish }) => (
    <g key={wish.id} className={wish.isReleased ? styles.released : styles.wish}>
      <path d={`M${x} ${y - 5}V${y}H${end}v-5`} />
      {text !== null && (
        <text x={(x + end) / 2} y={y - 4}>
          {text}
        </text>
      )}
    </g>
  ));
}
