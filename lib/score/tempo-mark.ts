import type { Quarters } from "./quarters";

/** A printed or encoded tempo. Words alone ("Allegro") carry no number. */
export interface TempoMark {
  readonly barIndex: number;
  /** Written time from the start of the piece. */
  readonly onset: Quarters;
  readonly words: string | null;
  /** Null when only words are given. */
  readonly quartersPerMinute: number | null;
  /** Where the number stands: the printed metronome mark, a `sound` element, or nowhere. */
  readonly source: "metronome" | "sound" | "words";
}
