import { type Quarters, quarters, writeQuarters } from "@/lib/score/quarters";
import { atPitch, type Transposition } from "@/lib/score/transposition";
import { divideExactly, readDecimal } from "./exact-time";
import { FirstVerse } from "./lyric-element";
import { lengthOfNoteValue } from "./note-type";
import type { PartDraft } from "./score-draft";
import { child, childElements, textOf, type XmlElement } from "./xml-tree";

/** What holds on from measure to measure in one part. */
export class PartState {
  readonly firstVerse = new FirstVerse();
  /** Divisions of a quarter note; null until the file gives them. */
  private divisions: { readonly num: number; readonly den: number } | null = null;
  private readonly lengths = new Map<string, Quarters | null>();
  private transposition: Transposition = atPitch;
  private readonly staffTranspositions = new Map<number, Transposition>();

  constructor(
    readonly partIndex: number,
    readonly draft: PartDraft,
  ) {}

  get hasDivisions(): boolean {
    return this.divisions !== null;
  }

  /** False when the text is no possible number of divisions; the earlier one then stays. */
  setDivisions(text: string): boolean {
    const divisions = readDecimal(text);
    if (divisions === null || divisions.num <= 0) return false;
    this.divisions = divisions;
    this.lengths.clear();
    return true;
  }

  /** Divisions that fit the first note of the measure that says both its type and its duration; else 1. */
  assumeDivisions(measure: XmlElement): Quarters {
    const assumed = fittingDivisions(measure) ?? quarters(1);
    this.divisions = { num: assumed.num, den: assumed.den };
    this.lengths.clear();
    return assumed;
  }

  /** A `duration` or `offset` in quarter notes; null when it is no number or not exact. */
  lengthOf(text: string): Quarters | null {
    const known = this.lengths.get(text);
    if (known !== undefined) return known;
    const units = readDecimal(text);
    const length = units === null ? null : divideExactly(units, this.divisions ?? { num: 1, den: 1 });
    if (this.lengths.size < 1024) this.lengths.set(text, length);
    return length;
  }

  /** @param staff null for all staves of the part. */
  setTransposition(transposition: Transposition, staff: number | null): void {
    if (staff !== null) {
      this.staffTranspositions.set(staff, transposition);
      return;
    }
    this.transposition = transposition;
    this.staffTranspositions.clear();
  }

  transpositionOf(staff: number): Transposition {
    return this.staffTranspositions.get(staff) ?? this.transposition;
  }
}

function fittingDivisions(measure: XmlElement): Quarters | null {
  for (const note of childElements(measure)) {
    if (note.name !== "note" || child(note, "grace")) continue;
    const dots = childElements(note).filter(({ name }) => name === "dot").length;
    const isTuplet = child(note, "time-modification") !== null;
    const value = { type: textOf(child(note, "type")).trim(), dots, actual: 1, normal: 1 };
    const drawn = isTuplet ? null : lengthOfNoteValue(value);
    const units = readDecimal(textOf(child(note, "duration")));
    if (!drawn || !units || units.num <= 0) continue;
    const fitting = divideExactly(units, drawn);
    if (fitting !== null) return fitting;
  }
  return null;
}

/** For sentences: "4" or "1/2". */
export function sayDivisions(divisions: Quarters): string {
  return writeQuarters(divisions);
}
