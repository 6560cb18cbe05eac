import type { StripRows } from "./rows";
import styles from "./strip-frame.module.css";

interface Edges {
  from: number;
  to: number;
}

/** Half the width of the frame's own label. */
const labelHalf = 31;

/** What moves over the strip: the frame of what the score shows, the cursor, the marked bars, the bar under the mouse. */
export function StripFrame({
  rows,
  frame,
  label,
  cursorX,
  marked,
  hover,
  width,
}: {
  rows: StripRows;
  frame: Edges | null;
  label: string | null;
  cursorX: number;
  marked: Edges | null;
  hover: { x: number; label: string } | null;
  width: number;
}) {
  const height = rows.axis - rows.solo;
  const labelX =
    frame && Math.min(Math.max((frame.from + frame.to) / 2, labelHalf - 10), width - labelHalf + 10);
  return (
    <g pointerEvents="none">
      {marked && (
        <rect
          className={styles.marked}
          x={marked.from}
          y={rows.solo}
          width={Math.max(2, marked.to - marked.from)}
          height={height}
        />
      )}
      {hover && (
        <g className={styles.hover}>
          <path d={`M${hover.x} ${rows.letters + 18}V${rows.axis}`} />
          <text x={hover.x} y={rows.solo - 2}>
            {hover.label}
          </text>
        </g>
      )}
      <path className={styles.cursor} d={`M${cursorX} ${rows.solo}V${rows.axis}`} />
      {frame && labelX !== null && (
        <>
          <rect
            className={styles.frame}
            x={frame.from - 1}
            y={rows.solo - 1.5}
            width={frame.to - frame.from + 2}
            height={height + 3}
            rx={2}
          />
          <rect
            className={styles.plate}
            x={labelX - labelHalf}
            y={rows.axis + 1}
            width={labelHalf * 2}
            height={16}
            rx={2}
          />
          <text className={styles.plateText} x={labelX} y={rows.axis + 13}>
            {label}
          </text>
        </>
      )}
    </g>
  );
}
