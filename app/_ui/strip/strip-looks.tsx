import type { StripRows } from "./rows";
import type { Scale } from "./scale";
import styles from "./strip-looks.module.css";
import type { StripLook } from "./strip-piece";

const half = 7.5;

interface Edges {
  readonly from: number;
  readonly to: number;
}

/** Within the strip, and beside the label of one's own frame rather than under it. */
function placeMark(x: number, width: number, label: Edges | null): number {
  const inside = (at: number) => Math.min(Math.max(at, half), width - half);
  if (label === null || x + half < label.from || x - half > label.to) return inside(x);
  const [before, after] = [label.from - half, label.to + half];
  const isNearerBefore = x < (label.from + label.to) / 2;
  if (before < half) return after;
  if (after > width - half) return before;
  return isNearerBefore ? before : after;
}

/** Where the others look now: their marks under the axis, a fine line up from each. The words stand at their names. */
export function StripLooks({
  looks,
  scale,
  rows,
  label,
}: {
  looks: readonly StripLook[];
  scale: Scale;
  rows: StripRows;
  /** What the label of the reader's own frame covers. */
  label: Edges | null;
}) {
  return (
    <g pointerEvents="none">
      {looks.map(({ userId, at, ink, initial }) => {
        const there = scale.x(at);
        const mark = placeMark(there, scale.width, label);
        return (
          <g key={userId} className={styles[ink]} data-look={userId}>
            <path d={`M${there} ${rows.solo}V${rows.axis}`} />
            <g transform={`translate(${mark} ${rows.axis + 9.5})`}>
              {ink === "so" ? (
                <circle r={half + 0.5} />
              ) : (
                <rect x={-half} y={-half} width={half * 2} height={half * 2} rx={ink === "pf" ? 0 : 4} />
              )}
              <text y={4}>{initial}</text>
            </g>
          </g>
        );
      })}
    </g>
  );
}
