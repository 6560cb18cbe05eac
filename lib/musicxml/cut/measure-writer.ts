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
import { hasTie } from "./mend-ties";
import type { Mending } from "./mending";
import { isChordMember, isGrace, isNote, isRest, type PartEvent, staffOf, voiceOf } from "./part-events";
import { type BarSlice, joinedLength, type PlannedBar, sliceLength } from "./planned-bars";
import { type NoteValue, printedLength, setValue, splitInValues } from "./retype-note";

/** An event, or the notes of a chord together. */
interface Group {
  readonly lead: PartEvent;
  readonly members: readonly PartEvent[];
}

/** Something to be written at a place of the new measure. */
interface Entry {
  readonly at: Quarters;
  readonly write: () => void;
}

/** What a slice has in one voice, up to where the source goes back to write another. */
interface Pass {
  readonly voice: string;
  readonly staff: string;
  readonly entries: readonly Entry[];
}

/**
 * Writes a measure that holds less than a bar of the source, or stretches of several. A voice is written through all
 * stretches before the next one, as in any bar: some readers lose a voice that is taken up again.
 */
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
    const passes: Pass[] = [];
    let start = noQuarters;
    for (const slice of this.bar.slices) {
      passes.push(...this.readSlice(slice, start));
      start = addQuarters(start, sliceLength(slice));
    }
    const voices = [...new Set(passes.map((pass) => pass.voice))];
    // A stable sort: the stretches of a voice stay in order.
    passes.sort((a, b) => voices.indexOf(a.voice) - voices.indexOf(b.voice));
    for (const { at, write } of passes.flatMap((pass) => pass.entries)) {
      this.moveTo(at);
      write();
    }
    return this.out;
  }

  private readSlice(slice: BarSlice, start: Quarters): Pass[] {
    const groups = groupChords(this.eventsOf(slice));
    const isStart = this.mending.spans[slice.span]?.from.barIndex === slice.barIndex;
    const isLeading = ({ lead }: Group) => isStart && isOpening(lead.node);
    const passes = splitPasses(groups.filter((group) => !isLeading(group))).map((pass) => ({
      voice: voiceOfPass(pass),
      staff: staffOfPass(pass),
      entries: pass.flatMap((group) => this.readGroup(group, slice, start)),
    }));
    const first = passes[0] ?? { voice: "1", staff: "1", entries: [] };
    const leading = groups.filter(isLeading).map(({ lead }) => lead.node);
    const atStart = [...leading, ...(isStart ? (this.mending.atStart[slice.span] ?? []) : [])];
    const atEnd = this.endsHere(slice) ? (this.mending.atEnd[slice.span] ?? []) : [];
    const end = addQuarters(start, sliceLength(slice));
    return [
      {
        ...first,
        entries: [...this.toEntries(start, atStart), ...first.entries, ...this.toEntries(end, atEnd)],
      },
      ...passes.slice(1).map((pass) => this.withBarline(pass, first, atStart, start)),
    ];
  }

  private toEntries(at: Quarters, nodes: readonly XmlElement[]): Entry[] {
    return nodes.length === 0 ? [] : [{ at, write: () => this.out.push(...nodes) }];
  }

  /** A double bar inside a bar belongs on every staff of the part. */
  private withBarline(pass: Pass, first: Pass, atStart: readonly XmlElement[], start: Quarters): Pass {
    const barline = atStart.find((node) => node.name === "barline" && node.attributes.location === "middle");
    if (!barline || pass.staff === first.staff) return pass;
    return { ...pass, entries: [...this.toEntries(start, [cloneElement(barline)]), ...pass.entries] };
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

  private readGroup({ lead, members }: Group, slice: BarSlice, start: Quarters): Entry[] {
    const place = this.mending.placeOf(lead);
    if (!place) return [];
    const at = addQuarters(start, subtractQuarters(place.at, slice.from));
    const isWhole = this.barRests.get(lead) === "whole";
    const length = isWhole ? joinedLength(this.bar.slices) : place.length;
    const write = () => {
      const nodes = [lead, ...members].map((event) => event.node);
      if (isChordMember(lead)) nodes[0] = withoutChord(lead.node);
      const isBarRest = isWhole || child(lead.node, "rest")?.attributes.measure === "yes";
      if (isEqualQuarters(length, lead.length)) this.out.push(...nodes);
      else this.writeShortened(nodes, length, isBarRest);
      if (isNote(lead) && !isGrace(lead)) this.cursor = addQuarters(at, length);
    };
    return [{ at, write }];
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
    const isTiedOn = nodes.map((node) => hasTie(node, "start"));
    for (const [index, value] of values.entries()) {
      const part = scaleQuarters(length, value.length.num * printed.den, value.length.den * printed.num);
      const pieces = nodes.map((node) => (index === 0 ? node : plainCopy(node, index)));
      for (const piece of pieces) setLength(piece, this.toTicks(part), value);
      if (!child(lead, "rest")) tieBetween(this.out.slice(-nodes.length), pieces, index);
      this.out.push(...pieces);
    }
    for (const [index, node] of this.out.slice(-nodes.length).entries())
      if (isTiedOn[index]) addTie(node, "start");
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

/** The source begins another voice where time goes back, and at the latest with a note of another voice. */
function splitPasses(groups: readonly Group[]): Group[][] {
  const passes: Group[][] = [];
  let at = noQuarters;
  for (const group of groups) {
    const pass = passes.at(-1);
    const isSameVoice = !isNote(group.lead) || !pass || [voiceOf(group.lead), ""].includes(voiceOfPass(pass));
    if (pass && isSameVoice && compareQuarters(group.lead.at, at) >= 0) pass.push(group);
    else passes.push([group]);
    at = group.lead.at;
  }
  return passes;
}

const firstNote = (pass: readonly Group[]) => pass.find(({ lead }) => isNote(lead))?.lead;

/** What stands before the first voice or after the last has none of its own and goes with the first. */
function voiceOfPass(pass: readonly Group[]): string {
  const note = firstNote(pass);
  return note ? voiceOf(note) : "";
}

const staffOfPass = (pass: readonly Group[]): string => staffOf(firstNote(pass)?.node ?? element("note"));

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
  if (hasTie(note, type)) return;
  insertInNote(note, element("tie", { type }));
  notationsOf(note).children.push(element("tied", { type }));
}
