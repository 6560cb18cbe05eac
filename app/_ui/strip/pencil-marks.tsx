import styles from "./pencil-marks.module.css";
import type { StripRows } from "./rows";
import type { Scale } from "./scale";
import type { StripPencil } from "./strip-piece";

/** How far apart the lines of two pencilled cuts over the same bars stand. */
const apart = 5;
const most = 3;

export interface PencilLine {
  readonly key: string;
  readonly ink: StripPencil["ink"];
  readonly x: number;
  readonly end: number;
  /** 0 next to the solo, counting upwards. */
  readonly level: number;
}

/** The lines of pencilled cuts; those that would lie on one another are stacked, three at most. */
export function placePencils(pencils: readonly StripPencil[], scale: Scale): PencilLine[] {
  const lines: PencilLine[] = [];
  for (const { key, ink, gaps } of pencils) {
    for (const gap of gaps) {
      const [x, end] = [scale.x(gap.from), scale.x(gap.to)];
      const taken = lines.filter((line) => line.x < end + 2 && line.end > x - 2).map(({ level }) => level);
      const level = [0, 1, 2].find((free) => !taken.includes(free)) ?? most - 1;
      lines.push({ key, ink, x, end, level });
    }
  }
  return lines;
}

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
    const y = rows.solo - 3 - level * apart;
    return (
      <path
        key={`${key} ${x}`}
        className={styles[ink]}
        d={`M${x + 0.5} ${rows.solo + 6}V${y}H${Math.max(x + 3, end - 0.5)}V${rows.solo + 6}`}
      />
    );
  });
}
