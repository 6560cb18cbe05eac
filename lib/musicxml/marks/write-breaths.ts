import type { Note, Rest } from "@/lib/score/note";
import type { Part } from "@/lib/score/part";
import type { Position } from "@/lib/score/position";
import { addQuarters, compareQuarters, isEqualQuarters, type Quarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { notationsOf } from "../cut/insert-in-note";
import { child, element, type XmlElement } from "../xml-tree";
import { notesById } from "./writable-tree";

/**
 * Writes a comma after the last note of the solo part that ends at or before each place. Where that note is followed by
 * a rest, the rest is the breath and nothing is written; nor is a mark that is printed already.
 *
 * @param part changed in place.
 */
export function writeBreaths(part: XmlElement, solo: Part, score: Score, places: readonly Position[]): void {
  const notes = notesById(part);
  for (const place of places) {
    const bar = score.bars[place.barIndex];
    const before = bar && findNoteBefore(solo, addQuarters(bar.start, place.offset));
    const note = before && notes.get(before.id);
    if (note) writeComma(note);
  }
}

const endOf = (note: Note | Rest): Quarters => addQuarters(note.onset, note.duration);

/** The note after which the player breathes at `time`; null when a rest is there, or no note before. */
function findNoteBefore(solo: Part, time: Quarters): Note | null {
  let found: Note | null = null;
  for (const note of solo.notes) {
    if (note.isGrace || note.isCue || note.isChordMember || compareQuarters(endOf(note), time) > 0) continue;
    if (found === null || compareQuarters(endOf(note), endOf(found)) > 0) found = note;
  }
  const end = found && endOf(found);
  const isFollowed = end && solo.notes.some((note) => !note.isCue && isEqualQuarters(note.onset, end));
  return isFollowed ? found : null;
}

/** MusicXML 4.0, `breath-mark-value`. */
function writeComma(note: XmlElement): void {
  const notations = notationsOf(note);
  const articulations = child(notations, "articulations");
  if (articulations && child(articulations, "breath-mark")) return;
  const comma = element("breath-mark", { placement: "above" }, "comma");
  if (articulations) articulations.children.push(comma);
  else notations.children.push(element("articulations", {}, comma));
}
