import type { DeskBar } from "@/app/_data/desk/desk";
import type { SoloNote } from "@/app/_data/desk/read-breath";
import type { PositionTerms } from "@/lib/edition/position-terms";
import { toPosition } from "@/lib/edition/position-terms";
import type { Position } from "@/lib/score/position";
import { compareQuarters, readQuarters, writeQuarters } from "@/lib/score/quarters";
import { sayBeatOf } from "./say-beat";

type Bars = readonly Pick<DeskBar, "label" | "length" | "beats">[];

/** One place has one spelling: the end of a bar is the start of the next, but for the last. */
export function spellPlace(bars: Bars, { barIndex, offset }: PositionTerms): PositionTerms {
  const [at, length] = [readQuarters(offset), readQuarters(bars[barIndex]?.length ?? "")];
  const isAtEnd = at !== null && length !== null && compareQuarters(at, length) >= 0;
  return isAtEnd && barIndex + 1 < bars.length
    ? { barIndex: barIndex + 1, offset: "0" }
    : { barIndex, offset };
}

/** A name for a place, the same for the same place. */
export function keyOfPlace(bars: Bars, place: PositionTerms): string {
  const { barIndex, offset } = spellPlace(bars, place);
  return `${barIndex} ${offset}`;
}

export function keyOfPosition(bars: Bars, { barIndex, offset }: Position): string {
  return keyOfPlace(bars, { barIndex, offset: writeQuarters(offset) });
}

/** A place at which a breath can stand: after a note. */
export interface BreathPlace {
  readonly key: string;
  readonly note: SoloNote;
  readonly at: Position;
  /** "bar 112 after beat 2"; "bar 113, before it" never: after the note that ends there. */
  readonly name: string;
  /** "Bar 112, beat 2: E flat 4". */
  readonly says: string;
}

/** Every place at which a breath can stand, in written order: never inside a tie, one for each moment. */
export function findPlaces(bars: Bars, notes: readonly SoloNote[]): BreathPlace[] {
  const places = new Map<string, BreathPlace>();
  for (const note of notes) {
    if (note.isTied) continue;
    const at = spellPlace(bars, { barIndex: note.barIndex, offset: note.to });
    const key = `${at.barIndex} ${at.offset}`;
    const beat = sayBeatOf(bars[note.barIndex], note.from);
    const label = bars[note.barIndex]?.label ?? "";
    const place = {
      ...{ key, note, at: toPosition(at) },
      name: `bar ${label}, after beat ${beat}`,
      says: `Bar ${label}, beat ${beat}${note.pitch && `: ${sayPitchName(note.pitch)}`}`,
    };
    if (!places.has(key)) places.set(key, place);
  }
  return [...places.values()];
}

/** "Bb4" as it is read: "B♭4". */
function sayPitchName(pitch: string): string {
  return pitch.replace(/^([A-G])(bb|b|##|#)?/, (_, step: string, sign = "") => {
    const signs: Readonly<Record<string, string>> = { bb: "♭♭", b: "♭", "##": "♯♯", "#": "♯" };
    return `${step}${signs[sign] ?? ""}`;
  });
}

/** Where notes begin and end: key of the place → id. */
export interface NoteEnds {
  readonly starts: ReadonlyMap<string, string>;
  readonly ends: ReadonlyMap<string, string>;
}

export function indexNotes(bars: Bars, notes: readonly SoloNote[]): NoteEnds {
  const [starts, ends] = [new Map<string, string>(), new Map<string, string>()];
  for (const { id, barIndex, from, to } of notes) {
    const [start, end] = [
      keyOfPlace(bars, { barIndex, offset: from }),
      keyOfPlace(bars, { barIndex, offset: to }),
    ];
    if (!starts.has(start)) starts.set(start, id);
    if (!ends.has(end)) ends.set(end, id);
  }
  return { starts, ends };
}
