import type { Note } from "@/lib/score/note";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import { element, type XmlElement } from "./xml-tree";

/** MusicXML 4.0, `divisions`: "should not exceed 16383" where MIDI is a concern. */
const usualLimit = 16_383;

/** Writes the children of one measure and keeps count of the time that they have reached. */
export class MeasureWriter {
  readonly children: XmlElement[] = [];
  readonly divisions: number;
  readonly hasNewDivisions: boolean;
  private at = noQuarters;

  /**
   * @param times of the measure, all to be counted in whole divisions.
   * @param before divisions that hold so far; 0 for none. They stay when they can.
   */
  constructor(times: readonly Quarters[], before: number) {
    const needed = times.reduce((common, { den }) => leastCommonMultiple(common, den), 1);
    const joined = leastCommonMultiple(Math.max(before, 1), needed);
    this.divisions = joined <= usualLimit ? joined : needed;
    this.hasNewDivisions = this.divisions !== before;
    if (!Number.isSafeInteger(this.divisions))
      throw new RangeError(`No divisions can count ${times.length} times.`);
  }

  /** @throws RangeError if the time is no whole number of divisions. */
  count(time: Quarters): number {
    const divisions = (time.num * this.divisions) / time.den;
    if (!Number.isSafeInteger(divisions))
      throw new RangeError(`Not in ${this.divisions} divisions: ${time.num}/${time.den}`);
    return divisions;
  }

  add(child: XmlElement | null): void {
    if (child !== null) this.children.push(child);
  }

  /** A chord member goes where the note before it is. */
  addNote(child: XmlElement, note: Note, offset: Quarters): void {
    if (!note.isChordMember) this.moveTo(offset);
    this.children.push(child);
    if (!note.isChordMember && !note.isGrace) this.at = addQuarters(offset, note.duration);
  }

  addRest(child: XmlElement, duration: Quarters, offset: Quarters): void {
    this.moveTo(offset);
    this.children.push(child);
    this.at = addQuarters(offset, duration);
  }

  moveTo(offset: Quarters): void {
    const difference = compareQuarters(offset, this.at);
    if (difference === 0) return;
    const by = difference > 0 ? subtractQuarters(offset, this.at) : subtractQuarters(this.at, offset);
    this.children.push(
      element(difference > 0 ? "forward" : "backup", {}, element("duration", {}, `${this.count(by)}`)),
    );
    this.at = offset;
  }
}

function leastCommonMultiple(a: number, b: number): number {
  let [x, y] = [a, b];
  while (y !== 0) [x, y] = [y, x % y];
  return (a / x) * b;
}
