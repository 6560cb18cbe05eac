import {
  addQuarters,
  compareQuarters,
  isEqualQuarters,
  noQuarters,
  type Quarters,
  scaleQuarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import { child, cloneElement, element, type XmlElement } from "../xml-tree";
import { setText } from "./even-divisions";
import { insertInNote, notationsOf } from "./insert-in-note";
import { isOpening, isRightBarline, moveCursor } from "./measure-parts";
import type { Mending } from "./mending";
import { isChordMember, isGrace, isNote, isRest, type PartEvent, staffOf, voiceOf } from "./part-events";
import { type BarSlice, joinedLength, type PlannedBar, sliceLength } from "./planned-bars";
import { type NoteValue, printedLength, setValue, splitInValues } from "./retype-note";

/** An event, or the notes of a chord together. */
interface Group {
  readonly lead: PartEvent;
  readonly members: readonly PartEvent[];
}

/** Writes a measure that holds less than a bar of the source, or stretches of several. */
export class MeasureWriter {
  private readonly out: XmlElement[] = [];
  private cursor: Quarters = noQuarters;
  private readonly barRests: ReadonlyMap<PartEvent, "whole" | "gone">;

  constructor(
    private readonly mending: Mending,
    private readonly bar: PlannedBar,
  ) {
    this.barRests = this.findBarRests();
  }

  write(): XmlElement[] {
    let start = noQuarters;
    for (const slice of this.bar.slices) {
      this.writeSlice(slice, start);
      start = addQuarters(start, sliceLength(slice));
    }
    return this.out;
  }

  private writeSlice(slice: BarSlice, start: Quarters): void {
    const span = this.mending.spans[slice.span];
    const isStart = span?.from.barIndex === slice.barIndex;
    const groups = groupChords(this.eventsOf(slice));
    const isLeading = ({ lead }: Group) => isStart && isOpening(lead.node);
    for (const { lead } of groups.filter(isLeading)) this.out.push(lead.node);
    if (isStart) this.addAt(start, this.mending.atStart[slice.span] ?? []);
    for (const group of groups) if (!isLeading(group)) this.writeGroup(group, slice, start);
    if (this.endsHere(slice)) {
      this.addAt(addQuarters(start, sliceLength(slice)), this.mending.atEnd[slice.span] ?? []);
    }
  }

  private endsHere(slice: BarSlice): boolean {
    const to = this.mending.spans[slice.span]?.to;
    if (!to) return false;
    return to.barIndex === slice.barIndex || (to.barIndex === slice.barIndex + 1 && to.offset.num === 0);
  }

  /** What stays of a slice; bar lines only where they still stand at an edge of the measure. */
  private eventsOf(slice: BarSlice): PartEvent[] {
    const { slices } = this.bar;
    return (this.mending.music.bars[slice.barIndex]?.events ?? []).filter((event) => {
      if (this.mending.placeOf(event)?.span !== slice.span || this.mending.removed.has(event.node))
        return false;
      if (this.barRests.get(event) === "gone") return false;
      if (event.node.name !== "barline" || event.node.attributes.location === "middle") return true;
      return slice === (isRightBarline(event.node) ? slices.at(-1) : slices[0]);
    });
  }

  private addAt(at: Quarters, nodes: readonly XmlElement[]): void {
    if (nodes.length === 0) return;
    this.moveTo(at);
    this.out.push(...nodes);
  }

  private writeGroup({ lead, members }: Group, slice: BarSlice, start: Quarters): void {
    const place = this.mending.placeOf(lead);
    if (!place) return;
    const at = addQuarters(start, subtractQuarters(place.at, slice.from));
    this.moveTo(at);
    const isWhole = this.barRests.get(lead) === "whole";
    const length = isWhole ? joinedLength(this.bar.slices) : place.length;
    const nodes = [lead, ...members].map((event) => event.node);
    if (isChordMember(lead)) nodes[0] = withoutChord(lead.node);
    if (isEqualQuarters(length, lead.length)) this.out.push(...nodes);
    else
      this.writeShortened(nodes, length, isWhole || child(lead.node, "rest")?.attributes.measure === "yes");
    if (isNote(lead) && !isGrace(lead)) this.cursor = addQuarters(at, length);
  }

  /** Notes with another length: as several, tied, when no single value is so long. */
  private writeShortened(nodes: readonly XmlElement[], length: Quarters, isBarRest: boolean): void {
    const [lead] = nodes;
    if (!lead) return;
    const printed = printedLength(lead, length);
    const values = isBarRest ? [] : (splitInValues(printed) ?? []);
    if (values.length < 2) {
      for (const node of nodes) setLength(node, this.toTicks(length), values[0] ?? null);
      this.out.push(...nodes);
      return;
    }
    for (const [index, value] of values.entries()) {
      const part = scaleQuarters(length, value.length.num * printed.den, value.length.den * printed.num);
      const pieces = nodes.map((node) => (index === 0 ? node : plainCopy(node, index)));
      for (const piece of pieces) setLength(piece, this.toTicks(part), value);
      if (!child(lead, "rest")) tieBetween(this.out.slice(-nodes.length), pieces, index);
      this.out.push(...pieces);
    }
  }

  private moveTo(at: Quarters): void {
    const distance = subtractQuarters(at, this.cursor);
    if (distance.num > 0) this.out.push(moveCursor("forward", this.toTicks(distance)));
    if (distance.num < 0) this.out.push(moveCursor("backup", -this.toTicks(distance)));
    this.cursor = at;
  }

  private toTicks(value: Quarters): number {
    return scaleQuarters(value, this.mending.music.divisions).num;
  }

  /** A voice that rests through all stretches of a joined bar has one rest for the whole bar. */
  private findBarRests(): Map<PartEvent, "whole" | "gone"> {
    const rests = new Map<PartEvent, "whole" | "gone">();
    if (this.bar.slices.length < 2) return rests;
    const voices = new Map<string, PartEvent[]>();
    for (const slice of this.bar.slices) {
      for (const event of this.mending.music.bars[slice.barIndex]?.events ?? []) {
        if (!isNote(event) || this.mending.placeOf(event)?.span !== slice.span) continue;
        const name = `${voiceOf(event)} ${staffOf(event.node)}`;
        voices.set(name, [...(voices.get(name) ?? []), event]);
      }
    }
    for (const events of voices.values()) {
      if (events.length !== this.bar.slices.length || !events.every((event) => this.isBarRest(event)))
        continue;
      for (const [index, event] of events.entries()) rests.set(event, index === 0 ? "whole" : "gone");
    }
    return rests;
  }

  private isBarRest(event: PartEvent): boolean {
    const length = this.mending.music.bars[event.barIndex]?.length;
    return (
      isRest(event) &&
      event.at.num === 0 &&
      length !== undefined &&
      compareQuarters(event.length, length) >= 0
    );
  }
}

/** Chord members with the note before them, as long as that note stays too. */
function groupChords(events: readonly PartEvent[]): Group[] {
  const groups: { lead: PartEvent; members: PartEvent[] }[] = [];
  for (const event of events) {
    const last = groups.at(-1);
    const isMember =
      last && isChordMember(event) && isNote(last.lead) && isEqualQuarters(last.lead.at, event.at);
    if (isMember) last.members.push(event);
    else groups.push({ lead: event, members: [] });
  }
  return groups;
}

/** A chord member whose first note was cut leads what is left. */
function withoutChord(note: XmlElement): XmlElement {
  note.children = note.children.filter((node) => node.kind !== "element" || node.name !== "chord");
  return note;
}

function setLength(note: XmlElement, ticks: number, value: NoteValue | null): void {
  const duration = child(note, "duration");
  if (duration) setText(duration, `${ticks}`);
  setValue(note, value);
}

/** The same pitch without anything that is said once: accidental, beam, lyric, notations. */
function plainCopy(note: XmlElement, index: number): XmlElement {
  const copy = cloneElement(note);
  if (note.attributes.id) copy.attributes.id = `${note.attributes.id}-held${index}`;
  copy.children = copy.children.filter(
    (node) => node.kind !== "element" || !/^(accidental|beam|lyric|notations|tie)$/.test(node.name),
  );
  return copy;
}

function tieBetween(before: readonly XmlElement[], after: readonly XmlElement[], index: number): void {
  if (index === 0) return;
  for (const note of before) addTie(note, "start");
  for (const note of after) addTie(note, "stop");
}

function addTie(note: XmlElement, type: "start" | "stop"): void {
  insertInNote(note, element("tie", { type }));
  notationsOf(note).children.push(element("tied", { type }));
}
