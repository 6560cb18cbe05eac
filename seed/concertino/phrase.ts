import type { InstrumentId } from "./instruments";
import type { Passage } from "./reduction";

/**
 * One sentence of the orchestral score: a harmony plan, the lines that matter, written out, and who plays what.
 *
 * `lines` are named texts (see notation.ts). `score` says bar by bar, counted from 1 in the phrase, what an
 * instrument does: `"1-4 melody+1; 5-8 pulse"` is the line `melody` an octave higher, then a figure on the harmony
 * (see figures.ts); `1:melody` is the first player of a pair alone. No entry is silence. `dynamics` is for the
 * whole orchestra: `"1 f; 3.1<4.4; 5 p"` (bar.beat). `right` and `left` are how the piano takes it over.
 */
export interface Phrase {
  readonly bars: number;
  readonly barTicks?: number;
  readonly harmony: string;
  readonly lines: Readonly<Record<string, string>>;
  readonly score: Partial<Record<InstrumentId, string>>;
  readonly dynamics?: string;
  /** Bass-clef instruments that read the tenor clef here. */
  readonly tenorClef?: readonly InstrumentId[];
  readonly right: readonly Passage[];
  readonly left: readonly Passage[];
}

/** Something printed above the system at a bar (counted from 1 in its section) and beat. */
export interface SystemWords {
  readonly bar: number;
  readonly beat: number;
  readonly words: string;
}

/** A section of the movement: everything between two rehearsal letters. */
export interface Section {
  readonly letter: string | undefined;
  readonly fifths: number;
  readonly mode: "major" | "minor";
  readonly tempo?: { readonly words: string; readonly quartersPerMinute: number };
  readonly words?: readonly SystemWords[];
  /** Bars of a repeated passage, counted from 1 in the section. */
  readonly repeat?: { readonly from: number; readonly firstEnding: number; readonly secondEnding: number };
  /** Barline at the end. */
  readonly closes?: "light-light" | "light-heavy";
  readonly phrases: readonly Phrase[];
}
