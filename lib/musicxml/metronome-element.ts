import { noQuarters, type Quarters, quartersAsNumber } from "@/lib/score/quarters";
import { addTime } from "./exact-time";
import { lengthOfNoteValue } from "./note-type";
import { child, childElements, textOf, type XmlElement } from "./xml-tree";

/** A metronome mark: a number, or a new note value set equal to an old one (then `modulation` is new ÷ old tempo). */
export type Metronome =
  | { readonly quartersPerMinute: number; readonly modulation: null }
  | { readonly quartersPerMinute: null; readonly modulation: number };

/** Reads a `metronome` element; null when it gives neither. Of "c. 108" and "104–112" the first number is taken. */
export function readMetronome(element: XmlElement): Metronome | null {
  const sides = readSides(element);
  const perMinute = /\d+(\.\d+)?/.exec(textOf(child(element, "per-minute")))?.[0];
  const unit = sides[0];
  if (perMinute !== undefined) {
    if (!unit) return null;
    return { quartersPerMinute: Number(perMinute) * quartersAsNumber(unit), modulation: null };
  }
  const after = sides[1];
  if (!unit || !after || unit.num === 0) return null;
  // As long as `unit` lasted before, so long lasts `after` now (common practice: the old value stands on the left).
  return { quartersPerMinute: null, modulation: quartersAsNumber(after) / quartersAsNumber(unit) };
}

/** The note values on both sides of the equals sign, in quarter notes. */
function readSides(element: XmlElement): (Quarters | null)[] {
  return child(element, "metronome-note") ? readNoteGroups(element) : readBeatUnits(element);
}

function readBeatUnits(element: XmlElement): (Quarters | null)[] {
  const units: { type: string; dots: number }[] = [];
  for (const part of childElements(element)) {
    const last = units.at(-1);
    if (part.name === "beat-unit") units.push({ type: textOf(part).trim(), dots: 0 });
    else if (part.name === "beat-unit-dot" && last) last.dots += 1;
    else if (part.name === "beat-unit-tied" && last) return [null];
  }
  return units.map((unit) => lengthOfNoteValue({ ...unit, actual: 1, normal: 1 }));
}

/** Groups of notes before and after `metronome-relation`. */
function readNoteGroups(element: XmlElement): (Quarters | null)[] {
  const sides: (Quarters | null)[] = [noQuarters];
  for (const part of childElements(element)) {
    if (part.name === "metronome-relation") sides.push(noQuarters);
    if (part.name !== "metronome-note") continue;
    const sum = sides.at(-1) ?? null;
    const length = readMetronomeNote(part);
    sides[sides.length - 1] = sum && length ? addTime(sum, length) : null;
  }
  return sides;
}

function readMetronomeNote(element: XmlElement): Quarters | null {
  const tuplet = child(element, "metronome-tuplet");
  const count = (name: string) => (tuplet ? Number(textOf(child(tuplet, name))) : 1);
  return lengthOfNoteValue({
    type: textOf(child(element, "metronome-type")).trim(),
    dots: childElements(element).filter(({ name }) => name === "metronome-dot").length,
    actual: count("actual-notes"),
    normal: count("normal-notes"),
  });
}
