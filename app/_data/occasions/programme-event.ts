import type { CalendarEvent } from "@/lib/calendar/write-calendar";
import { sayClock } from "@/lib/score/say-clock";
import type { ProgrammeEntry, ProgrammeRecord } from "@/lib/store/programmes/programme-record";
import { sumOf } from "./sum-of-programme";

/** A programme as an entry of a calendar, with what the viewer may see of it. */
export function programmeEvent(programme: ProgrammeRecord, publicUrl: URL): CalendarEvent {
  const { id, name, on, startsAt, place, own, entries } = programme;
  return {
    // Others see a part of it that changes with their own pieces, and no count of its changes.
    ...{ uid: id, sequence: own?.revision ?? 0, on, startsAt, lengthSeconds: sumOf(programme).seconds },
    changedAt: new Date(own?.changedAt ?? lastChange(entries)),
    summary: name,
    location: place,
    description: entries.map(describe).join("\n"),
    url: new URL(`/performances/programme/${id}`, publicUrl).href,
  };
}

function lastChange(entries: readonly ProgrammeEntry[]): number {
  const times = entries.map((entry) =>
    entry.kind === "performance" ? Date.parse(entry.performance.changedAt) : 0,
  );
  return Math.max(0, ...times);
}

function describe(entry: ProgrammeEntry): string {
  switch (entry.kind) {
    case "performance": {
      const { pieceTitle, editionNumber, plannedSeconds } = entry.performance;
      return `${pieceTitle}, edition № ${editionNumber}, ${sayClock(plannedSeconds)}`;
    }
    case "words":
      return entry.plannedSeconds === null
        ? entry.title
        : `${entry.title}, ${sayClock(entry.plannedSeconds)}`;
    case "another piece":
      return "another piece";
  }
}
