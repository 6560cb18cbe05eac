import styles from "./metronome-mark.module.css";
import { Spoken } from "./spoken";

interface NoteValue {
  readonly words: string;
  readonly isOpen: boolean;
  readonly flags: number;
  readonly isDotted: boolean;
}

const plain = [
  { quarters: 2, words: "half", isOpen: true, flags: 0 },
  { quarters: 1, words: "quarter", isOpen: false, flags: 0 },
  { quarters: 1 / 2, words: "eighth", isOpen: false, flags: 1 },
  { quarters: 1 / 4, words: "sixteenth", isOpen: false, flags: 2 },
] as const;

/** @param beat in quarters as text: "1", "3/2". */
function noteValue(beat: string): NoteValue | null {
  const [num = Number.NaN, den = 1] = beat.split("/").map(Number);
  for (const { quarters, words, isOpen, flags } of plain) {
    if (num / den === quarters) return { words, isOpen, flags, isDotted: false };
    if (num / den === quarters * 1.5) return { words: `dotted ${words}`, isOpen, flags, isDotted: true };
  }
  return null;
}

/** The beat in words: "quarter", "dotted half". */
export function sayBeat(beat: string): string {
  return noteValue(beat)?.words ?? `${beat} quarters`;
}

/** A note as it stands in a metronome mark. Drawn for this product. */
export function BeatSign({ beat }: { beat: string }) {
  const value = noteValue(beat);
  if (value === null) return <span>{sayBeat(beat)}</span>;
  return (
    <span className={styles.beat}>
      <svg className={styles.sign} viewBox="0 0 22 40" aria-hidden="true">
        <ellipse
          className={value.isOpen ? styles.open : undefined}
          cx="7"
          cy="34"
          rx="6.4"
          ry="4.6"
          transform="rotate(-24 7 34)"
        />
        <path className={styles.stem} d="M12.6 32V3" />
        {value.flags > 0 && <path d="M12 3c1 7 8.5 8 6.5 17 0-6-3-8.5-6.5-9z" />}
        {value.flags > 1 && <path d="M12 10c1 7 8.5 8 6.5 17 0-6-3-8.5-6.5-9z" />}
        {value.isDotted && <circle cx="18.4" cy="34" r="2.4" />}
      </svg>
      <Spoken>{value.words}</Spoken>
    </span>
  );
}

/** "♩ = 96", its note drawn. */
export function MetronomeMark({ beat, perMinute }: { beat: string; perMinute: number }) {
  return (
    <span className={styles.mark}>
      <BeatSign beat={beat} /> = {perMinute}
    </span>
  );
}
