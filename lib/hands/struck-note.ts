import type { Note } from "@/lib/score/note";
import type { Part } from "@/lib/score/part";
import { midiNumber } from "@/lib/score/pitch";
import { isPlayed } from "@/lib/score/playing-spans";
import {
  addQuarters,
  compareQuarters,
  type Quarters,
  quartersAsNumber,
  writeQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { shareTremolos } from "@/lib/score/share-tremolos";
import { strokeLength } from "@/lib/score/tremolo-stroke";
import type { HandName } from "./hands-profile";

/** A key that is pressed: tied notes are pressed once. */
export interface StruckNote {
  readonly id: string;
  readonly barIndex: number;
  readonly midi: number;
  /** Whose staff it is printed on. */
  readonly staffHand: HandName;
  /** Written time. */
  readonly onset: Quarters;
  readonly end: Quarters;
  readonly isRolled: boolean;
  /** Strokes that its tremolo sign asks for in a quarter note; 0 without one. */
  readonly strokesPerQuarter: number;
}

/**
 * What the pianist's part asks for, by onset, then from the lowest. Cue-size, hidden, grace and unpitched notes are left
 * out: they take no key, or no time.
 */
export function findStruckNotes(score: Score): StruckNote[] {
  const parts = score.parts.filter(({ role }) => role === "reduction");
  return parts
    .flatMap((part, index) => strikePart(part, handOf(part, index, parts.length)))
    .sort((a, b) => compareQuarters(a.onset, b.onset) || a.midi - b.midi);
}

/** The last staff is the left hand's; where each hand has a part of its own, so is the last part. */
function handOf(part: Part, partIndex: number, partCount: number): (staff: number) => HandName {
  if (partCount > 1) return () => (partIndex === partCount - 1 ? "left" : "right");
  return (staff) => (part.staffCount > 1 && staff >= part.staffCount ? "left" : "right");
}

function strikePart(part: Part, handOfStaff: (staff: number) => HandName): StruckNote[] {
  const struck: StruckNote[] = [];
  const open = new Map<string, number>();
  for (const note of shareTremolos(part.notes)) {
    if (!note.sounding || !isPlayed(note)) continue;
    const midi = Math.round(midiNumber(note.sounding));
    const end = addQuarters(note.onset, note.duration);
    const heldIndex = note.tieStop ? open.get(`${midi}@${writeQuarters(note.onset)}`) : undefined;
    const held = heldIndex === undefined ? undefined : struck[heldIndex];
    const place = heldIndex === undefined || !held ? struck.length : heldIndex;
    struck[place] = held
      ? { ...held, end }
      : {
          ...{ id: note.id, barIndex: note.barIndex, midi, onset: note.onset, end },
          staffHand: handOfStaff(note.staff),
          isRolled: note.isArpeggiated,
          strokesPerQuarter: strokesOf(note),
        };
    if (note.tieStart) open.set(`${midi}@${writeQuarters(end)}`, place);
  }
  return struck;
}

/** The two notes of a tremolo to and fro have none: the hand rocks between them as fast as it likes. */
function strokesOf({ duration, tremolo }: Note): number {
  if (tremolo === null || tremolo.type === "start" || tremolo.type === "stop") return 0;
  return 1 / quartersAsNumber(strokeLength(duration, tremolo));
}
