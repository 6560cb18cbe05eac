import styles from "./pencil-marks.module.css";
import { placePencils } from "./place-pencils";
import type { StripRows } from "./rows";
import type { Scale } from "./scale";
import type { StripPencil } from "./strip-piece";

/** How far apart the lines of two pencilled cuts over the same bars stand. */
const apart = 4;

/** A light bracket over the bars that somebody pencilled out: no gap, no number, nothing is proposed by it. */
export function PencilMarks({
  pencils,
  scale,
  rows,
}: {
  pencils: readonly StripPencil[];
  scale: Scale;
  rows: StripRows;
}) {
  return placePencils(pencils, scale).map(({ key, ink, x, end, level }) => {
    const y = rows.solo - 16 - level * apart;
    return (
      <path
        key={`${key} ${x}`}
        className={styles[ink]}
        d={`M${x + 0.5} ${rows.solo - 1}V${y}H${Math.max(x + 3, end - 0.5)}V${rows.solo - 1}`}
      />
    );
  });
}
