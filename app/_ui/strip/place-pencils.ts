import type { Scale } from "./scale";
import type { StripPencil } from "./strip-piece";

/** Lines over one another: more would run into the letters. */
const levels = [0, 1, 2] as const;

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
      const level = levels.find((free) => !taken.includes(free)) ?? 2;
      lines.push({ key, ink, x, end, level });
    }
  }
  return lines;
}
