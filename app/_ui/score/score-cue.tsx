import type { Ink } from "../party";
import type { BarBox } from "./engraving";
import styles from "./score-cue.module.css";
import type { CutEnd } from "./score-cut";

/** A cue over the reduction: the instrument that has the line from here. */
export interface ScoreCue {
  readonly id: string;
  readonly text: string;
  readonly at: CutEnd;
  /** Of whoever wrote it. */
  readonly ink: Ink;
  /** As it is read out: "Fl., bar 143, Nerys". */
  readonly label: string;
}

/** Which cues are drawn, and over which staff of a system, counted from the top. */
export interface ScoreCues {
  readonly list: readonly ScoreCue[];
  readonly staff: number;
}

/**
 * How far over its staff the word stands, in pixels: clear of notes on the first two ledger lines, as far as the staff over
 * it leaves room.
 */
function liftOf(staff: number, { staves }: BarBox, unit: number): number {
  const [over, own] = [staves[staff - 1], staves[staff]];
  const room = over && own ? (own.top - over.bottom) / unit : Number.POSITIVE_INFINITY;
  return Math.max(9, Math.min(21, room - 14));
}

/** The word over the reduction; it opens what can be done with it. */
export function ScoreCueMark({
  cue,
  staff,
  box,
  unit,
  onOpen,
}: {
  cue: ScoreCue;
  staff: number;
  box: BarBox;
  /** Units of the drawing in one pixel of the page. */
  unit: number;
  onOpen: () => void;
}) {
  const top = (box.staves[staff] ?? box.staves.at(-1))?.top ?? box.bottom;
  const x = box.x + (cue.at.part === 0 ? 5 * unit : box.width * cue.at.part);
  const y = top - liftOf(staff, box, unit) * unit;
  // Wide enough for the letters of any cue that is as long; the words themselves can be pressed too.
  const reach = Math.max(36, 8 * cue.text.length + 10) * unit;
  return (
    // biome-ignore lint/a11y/useSemanticElements: an HTML button cannot stand inside a drawing
    <g
      className={styles[cue.ink]}
      role="button"
      tabIndex={0}
      aria-label={cue.label}
      onClick={onOpen}
      onPointerDown={(event) => event.stopPropagation()}
      onKeyDown={(event) => {
        event.stopPropagation();
        if (event.key !== "Enter" && event.key !== " ") return;
        event.preventDefault();
        onOpen();
      }}
    >
      <rect className={styles.reach} x={x - 5 * unit} y={y - 22 * unit} width={reach} height={30 * unit} />
      <text x={x} y={y} fontSize={14 * unit} strokeWidth={4 * unit}>
        {cue.text}
      </text>
    </g>
  );
}
