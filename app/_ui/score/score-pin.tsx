import type { Ink } from "../party";
import type { BarBox } from "./engraving";
import styles from "./score-pin.module.css";

/** Comments that begin in one bar. */
export interface BarPin {
  readonly barIndex: number;
  readonly ink: Ink;
  readonly ids: readonly string[];
}

/** The mark over a bar that has comments; it opens them. */
export function ScorePin({
  pin,
  box,
  unit,
  label,
  onOpen,
}: {
  pin: BarPin;
  box: BarBox;
  unit: number;
  label: string;
  onOpen: () => void;
}) {
  const [x, y] = [box.x + box.width - 16 * unit, box.top - 24 * unit];
  const half = 9 * unit;
  return (
    // biome-ignore lint/a11y/useSemanticElements: an HTML button cannot stand inside a drawing
    <g
      className={styles[pin.ink]}
      role="button"
      tabIndex={0}
      aria-label={label}
      onClick={onOpen}
      onPointerDown={(event) => event.stopPropagation()}
      onKeyDown={(event) => {
        event.stopPropagation();
        if (event.key !== "Enter" && event.key !== " ") return;
        event.preventDefault();
        onOpen();
      }}
    >
      <rect
        className={styles.reach}
        x={x - 22 * unit}
        y={y - 22 * unit}
        width={44 * unit}
        height={44 * unit}
      />
      {pin.ink === "so" ? (
        <circle cx={x} cy={y} r={9.5 * unit} />
      ) : (
        <rect
          x={x - half}
          y={y - half}
          width={2 * half}
          height={2 * half}
          rx={pin.ink === "pf" ? 0 : 4 * unit}
        />
      )}
      <text x={x} y={y + 4.2 * unit} fontSize={11.5 * unit}>
        {pin.ids.length}
      </text>
    </g>
  );
}
