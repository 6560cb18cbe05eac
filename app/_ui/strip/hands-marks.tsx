import { useMemo } from "react";
import styles from "./hands-marks.module.css";
import {
  comfortableDifficulty,
  heightOfDifficulty,
  placeHandsBars,
  placeTempi,
  placeTriangles,
} from "./hands-row";
import { rowHeights, type StripRows } from "./rows";
import type { Scale } from "./scale";
import type { StripPiece } from "./strip-piece";

interface Drawn {
  piece: StripPiece;
  scale: Scale;
  rows: StripRows;
}

/** The row of hands: a column a bar, black where it is awkward, and the dotted line of what is comfortable. */
export function HandsBars({ piece: { hands }, scale, rows }: Drawn) {
  const columns = useMemo(() => (hands ? placeHandsBars(hands.bars, scale) : []), [hands, scale]);
  if (rows.hands === null || !hands) return null;
  const foot = rows.hands + rowHeights.hands;
  const path = (isAwkward: boolean) =>
    columns
      .filter((column) => column.isAwkward === isAwkward)
      .map(
        ({ x, width, height }) =>
          `M${x.toFixed(1)} ${foot}v${-height.toFixed(1)}h${width.toFixed(1)}V${foot}z`,
      )
      .join("");
  return (
    <>
      <path className={styles.easy} d={path(false)} />
      <path className={styles.awkward} d={path(true)} />
      <path
        className={styles.line}
        d={`M0 ${foot - heightOfDifficulty(comfortableDifficulty)}H${scale.width}`}
      />
    </>
  );
}

/** A triangle a passage: black while nothing is done about it, hollow once something else is played. */
export function HandsTriangles({ piece: { hands }, scale, rows }: Drawn) {
  const triangles = useMemo(() => (hands ? placeTriangles(hands.passages, scale) : []), [hands, scale]);
  if (rows.hands === null) return null;
  return triangles.map(({ x, isSolved }) => (
    <path
      key={x}
      className={isSolved ? styles.solved : styles.open}
      d={`M${(x - 4.5).toFixed(1)} ${(rows.hands ?? 0) + 2}h9l-4.5 7.5z`}
    />
  ));
}

/** Beside its triangle, what a passage has reached of its tempo. */
export function HandsTempi({ piece: { hands }, scale, rows }: Drawn) {
  const tempi = useMemo(
    () => (hands?.tempi ? placeTempi(hands.tempi, placeTriangles(hands.passages, scale), scale) : []),
    [hands, scale],
  );
  const { hands: top } = rows;
  if (top === null) return null;
  return tempi.map(({ x, short, words }) => (
    <text key={x} className={styles.tempo} x={x.toFixed(1)} y={top + 10}>
      <title>{words}</title>
      {short}
    </text>
  ));
}
