import type { Bar } from "@/lib/score/bar";
import { beatOf } from "@/lib/score/beat-of";
import { findSoloPart } from "@/lib/score/find-part";
import type { Note } from "@/lib/score/note";
import type { Pitch } from "@/lib/score/pitch";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  quartersAsNumber,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";

/** The beats of a bar as offsets from its start in quarters, as text, the bar line first. */
export function beatOffsets(bar: Bar): string[] {
  const beat = beatOf(bar.metre);
  const offsets: string[] = [];
  for (let at = noQuarters; compareQuarters(at, bar.length) < 0; at = addQuarters(at, beat)) {
    offsets.push(writeQuarters(at));
  }
  return offsets.length > 0 ? offsets : ["0"];
}

const accidentals: Readonly<Record<string, string>> = { "-2": "bb", "-1": "b", "0": "", "1": "#", "2": "##" };

/** A pitch as it is sent: "F#4", "Bb3". */
export function sayPitch({ step, alter, octave }: Pitch): string {
  return `${step}${accidentals[`${alter}`] ?? ""}${octave}`;
}

/** The beat a note begins on, from 1, as players count: "1", "2.5", "3.33". */
function sayBeat(note: Note, bar: Bar): string {
  const beats =
    quartersAsNumber(subtractQuarters(note.onset, bar.start)) / quartersAsNumber(beatOf(bar.metre));
  return `${Math.round((beats + 1) * 100) / 100}`;
}

/** What the solo plays in each bar, written pitch: "1:F#4 2.5:Bb4"; empty where it rests or the score has no solo part. */
export function soloTexts(score: Score): string[] {
  const texts: string[][] = score.bars.map(() => []);
  for (const note of findSoloPart(score)?.notes ?? []) {
    const bar = score.bars[note.barIndex];
    const isHeard = !(note.isCue || note.isHidden || note.isGrace || note.tieStop || note.isChordMember);
    if (bar && isHeard && note.written)
      texts[note.barIndex]?.push(`${sayBeat(note, bar)}:${sayPitch(note.written)}`);
  }
  return texts.map((notes) => notes.join(" "));
}
