import { childrenNamed, textOf, type XmlElement } from "../xml-tree";
import { setText } from "./even-divisions";
import { type Mending, removeChild } from "./mending";
import { eventsInTime, isGrace, isNote, type PartEvent, voiceOf } from "./part-events";

/** Beams that a cut divides end on the last note before it and begin on the first after it; a single note gets none. */
export function mendBeams(mending: Mending): void {
  for (const group of findBeamGroups(eventsInTime(mending.music))) {
    const spans = new Set(group.map((event) => mending.placeOf(event)?.span));
    if (spans.size < 2) continue;
    for (const span of spans) {
      if (span !== undefined) mendGroup(group.filter((event) => mending.placeOf(event)?.span === span));
    }
  }
}

/** Notes under one primary beam. Grace notes have beams of their own between those of other notes. */
function findBeamGroups(events: readonly PartEvent[]): PartEvent[][] {
  const groups: PartEvent[][] = [];
  const open = new Map<string, PartEvent[]>();
  for (const event of events) {
    const primary = isNote(event) ? primaryBeam(event.node) : null;
    if (primary === null) continue;
    const key = `${voiceOf(event)} ${isGrace(event)}`;
    const group = primary === "begin" ? [] : (open.get(key) ?? []);
    group.push(event);
    if (primary === "end") {
      groups.push(group);
      open.delete(key);
    } else open.set(key, group);
  }
  return groups;
}

function primaryBeam(note: XmlElement): string | null {
  const beam = childrenNamed(note, "beam").find((each) => (each.attributes.number ?? "1") === "1");
  return beam ? textOf(beam).trim() : null;
}

function mendGroup(group: readonly PartEvent[]): void {
  const first = group[0];
  const last = group.at(-1);
  if (!first || !last) return;
  if (first === last) {
    for (const beam of childrenNamed(first.node, "beam")) removeChild(first.node, beam);
    return;
  }
  // A secondary beam of which one note is left becomes a hook.
  for (const beam of childrenNamed(first.node, "beam")) {
    change(beam, {
      continue: "begin",
      end: isPrimary(beam) ? "begin" : "forward hook",
      "backward hook": "forward hook",
    });
  }
  for (const beam of childrenNamed(last.node, "beam")) {
    change(beam, {
      continue: "end",
      begin: isPrimary(beam) ? "end" : "backward hook",
      "forward hook": "backward hook",
    });
  }
}

const isPrimary = (beam: XmlElement): boolean => (beam.attributes.number ?? "1") === "1";

function change(beam: XmlElement, table: Readonly<Record<string, string>>): void {
  const now = textOf(beam).trim();
  if (Object.hasOwn(table, now)) setText(beam, table[now] ?? now);
}
