"use client";

/** The duo's own words for one instrument. */
export interface CueHintRecord {
  readonly instrument: string;
  readonly text: string;
  readonly authorName: string;
  /** ISO 8601. */
  readonly at: string;
}

export interface VoicingHintsProps {
  pieceId: string;
  /** Words of the cues that are in the piece: "Fl.", "Ob. solo". */
  instruments: readonly string[];
  /** Every text that was written, the newest first. */
  hints: readonly CueHintRecord[];
  mayWrite: boolean;
}

/** How to sound like the instruments of the orchestra. */
export function VoicingHints({ instruments }: VoicingHintsProps) {
  return (
    <ul>
      {instruments.map((instrument) => (
        <li key={instrument}>{instrument}</li>
      ))}
    </ul>
  );
}
