import type { Quarters } from "@/lib/score/quarters";
import { type Division, handOf } from "./division";
import type { HandName } from "./hands-profile";
import type { StruckNote } from "./struck-note";

/** What one hand presses at one moment. */
export interface HandStroke {
  /** From the lowest. */
  readonly notes: readonly TimedNote[];
  /** Keys at the two ends. */
  readonly lowest: number;
  readonly highest: number;
  readonly onset: Quarters;
  /** In seconds from the beginning, at the tempo that was read. */
  readonly seconds: number;
  readonly isRolled: boolean;
  /** Before the bar that is looked at: it only tells where the hand comes from. */
  readonly isBefore: boolean;
}

export interface TimedNote extends StruckNote {
  readonly seconds: number;
  readonly endSeconds: number;
}

/** The strokes of one hand, in time. */
export function strokesOfHand(
  notes: readonly TimedNote[],
  division: Division,
  hand: HandName,
  barIndex: number,
): HandStroke[] {
  const strokes: HandStroke[] = [];
  let chord: TimedNote[] = [];
  const close = () => {
    const [first] = chord;
    if (!first) return;
    strokes.push({
      notes: chord,
      lowest: first.midi,
      highest: (chord[chord.length - 1] as TimedNote).midi,
      onset: first.onset,
      seconds: first.seconds,
      isRolled: chord.some(({ isRolled }) => isRolled),
      isBefore: first.barIndex < barIndex,
    });
    chord = [];
  };
  for (const note of notes) {
    if (handOf(note, division) !== hand) continue;
    if (chord[0] && chord[0].seconds !== note.seconds) close();
    // Two voices on one key press it once.
    if (chord.at(-1)?.midi !== note.midi) chord.push(note);
  }
  close();
  return strokes;
}

export const spanOf = ({ lowest, highest }: HandStroke): number => highest - lowest;
