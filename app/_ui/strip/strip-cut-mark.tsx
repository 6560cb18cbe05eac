import { bridgePath, type CutShape } from "./cut-shapes";
import type { StripRows } from "./rows";
import styles from "./strip-cut-mark.module.css";

/** A cut over the rows it takes away: gap, hatch, edges, bridge, Vi– and –de, its number, the time it saves. */
export function StripCutMark({
  shape,
  rows,
  hatch,
  isOpenCard,
}: {
  shape: CutShape;
  rows: StripRows;
  /** Id of the hatch patterns, before "-agreed", "-pf"… */
  hatch: string;
  isOpenCard: boolean;
}) {
  const { x, end, middle, cut } = shape;
  const party = cut.state === "agreed" ? "agreed" : cut.ink;
  const stand = rows.solo - 4;
  if (shape.isClosed) return <Seam x={x} from={rows.bridges} to={rows.axis} />;
  return (
    <g className={styles[party]} data-open-card={isOpenCard || undefined}>
      <rect className={styles.gap} x={x} y={rows.solo} width={end - x} height={rows.axis - rows.solo} />
      <rect
        x={x}
        y={rows.solo}
        width={end - x}
        height={rows.axis - rows.solo}
        fill={`url(#${hatch}-${party})`}
      />
      <path className={styles.edge} d={`M${x} ${stand}V${rows.axis}M${end} ${stand}V${rows.axis}`} />
      {cut.state === "agreed" ? (
        <path className={styles.slur} d={bridgePath(x, end, stand, 18, 4)} />
      ) : (
        <path className={styles.bridge} d={bridgePath(x, end, stand, 21, 0)} />
      )}
      {shape.hasVi && (
        <text className={styles.word} x={x - 2} y={stand - 1} textAnchor="end">
          Vi–
        </text>
      )}
      {shape.hasDe && (
        <text className={styles.word} x={end + 2} y={stand - 1}>
          –de
        </text>
      )}
      <Plate shape={shape} y={rows.solo + 21} />
      {shape.saved && rows.breaths !== null && (
        <text className={styles.saved} x={middle} y={rows.breaths + 14}>
          {shape.saved}
        </text>
      )}
    </g>
  );
}

function Seam({ x, from, to }: { x: number; from: number; to: number }) {
  return (
    <g className={styles.agreed}>
      <path className={styles.seam} d={`M${x} ${from + 12}V${to}`} />
      <text className={styles.word} x={x} y={from + 9} textAnchor="middle">
        Vi–de
      </text>
    </g>
  );
}

/** The number: square for the pianist and for what is agreed, round for the soloist. */
function Plate({ shape, y }: { shape: CutShape; y: number }) {
  const { middle, plate, cut } = shape;
  const isRound = cut.state === "open" && cut.ink === "so";
  return (
    <>
      {isRound ? (
        <circle className={styles.plate} cx={middle} cy={y} r={plate} />
      ) : (
        <rect
          className={styles.plate}
          x={middle - plate}
          y={y - plate}
          width={plate * 2}
          height={plate * 2}
        />
      )}
      <text className={styles.number} x={middle} y={y + 4}>
        {cut.number}
      </text>
    </>
  );
}
