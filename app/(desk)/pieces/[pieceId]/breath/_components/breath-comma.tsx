import { commaPath } from "@/app/_ui/music-sign";
import type { Ink } from "@/app/_ui/party";
import styles from "./breath-comma.module.css";

/** A breath over the staff: black; in its writer's ink while new; hollow while only suggested; faint under the mouse. */
export function BreathComma({
  x,
  y,
  unit,
  look,
  title,
}: {
  x: number;
  /** What it must clear. */
  y: number;
  unit: number;
  look: Ink | "breath" | "suggested" | "ghost";
  title?: string;
}) {
  const scale = 0.7 * unit;
  const [left, top] = [x - 8 * scale, y - 26 * unit];
  const isNew = look === "so" || look === "pf" || look === "graphite";
  return (
    <g className={styles[look]} data-breath={look}>
      {title && <title>{title}</title>}
      {isNew && <circle className={styles.ring} cx={x} cy={top + 10 * unit} r={15 * unit} />}
      <path transform={`translate(${left} ${top}) scale(${scale})`} d={commaPath} />
    </g>
  );
}
