import { escapeText, writeContentLine } from "./content-line";
import { isoDateOf } from "./iso-date";

/** An entry in somebody's calendar. */
export interface CalendarEvent {
  /** The same whenever the same occasion is written, so that a calendar changes what it has instead of adding to it. */
  readonly uid: string;
  /** How often it was changed: a calendar believes the higher one. */
  readonly sequence: number;
  /** When what is written here was last changed. */
  readonly changedAt: Date;
  /** ISO 8601 date at the place, "2026-03-14". */
  readonly on: string;
  /** "19:30" by the clock of the place, whichever zone that is in; null for a whole day. */
  readonly startsAt: string | null;
  /** How long it lasts; counts only with `startsAt`. */
  readonly lengthSeconds: number;
  readonly summary: string;
  readonly location: string;
  readonly description: string;
  /** Where it is looked up; null when there is no such address. */
  readonly url: string | null;
}

/**
 * A calendar file (`text/calendar`, UTF-8). Times are local to the place and name no zone: who travels there reads them
 * off the clock on the wall. Without a time of day it is an entry of the whole day.
 *
 * @throws RangeError for a date or a time of day that is none, or a sequence that is no count.
 * Source: RFC 5545, 3.4 and 3.6 (calendar), 3.6.1 (event), 3.3.5 form 1 (local time), 3.3.4 (date), 3.3.6 (duration).
 */
export function writeCalendar(events: readonly CalendarEvent[]): string {
  const lines = [
    writeContentLine("BEGIN", "VCALENDAR"),
    writeContentLine("VERSION", "2.0"),
    writeContentLine("PRODID", "-//Colla Parte//Performances//EN"),
    writeContentLine("CALSCALE", "GREGORIAN"),
    ...events.map(writeEvent),
    writeContentLine("END", "VCALENDAR"),
  ];
  return lines.join("");
}

function writeEvent(event: CalendarEvent): string {
  const { uid, sequence, changedAt, summary, location, description, url } = event;
  if (!Number.isSafeInteger(sequence) || sequence < 0) throw new RangeError(`Not a sequence: ${sequence}`);
  const text = (name: string, value: string) =>
    value === "" ? "" : writeContentLine(name, escapeText(value));
  return [
    writeContentLine("BEGIN", "VEVENT"),
    text("UID", uid),
    writeContentLine("DTSTAMP", writeUtc(changedAt)),
    writeContentLine("SEQUENCE", `${sequence}`),
    ...writeTimes(event),
    text("SUMMARY", summary),
    text("LOCATION", location),
    text("DESCRIPTION", description),
    url === null ? "" : writeContentLine("URL", url),
    writeContentLine("END", "VEVENT"),
  ].join("");
}

function writeTimes({ on, startsAt, lengthSeconds }: CalendarEvent): string[] {
  const date = plainDate(on);
  // Without an end an event of a date lasts that day. A whole day does not make anybody busy.
  if (startsAt === null)
    return [writeContentLine("DTSTART;VALUE=DATE", date), writeContentLine("TRANSP", "TRANSPARENT")];
  if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(startsAt)) throw new RangeError(`Not a time of day: ${startsAt}`);
  return [
    writeContentLine("DTSTART", `${date}T${startsAt.replace(":", "")}00`),
    writeContentLine("DURATION", writeMinutes(lengthSeconds)),
  ];
}

/** "20260314". */
function plainDate(iso: string): string {
  const date = new Date(`${iso}T00:00:00Z`);
  if (!/^\d{4}-\d{2}-\d{2}$/.test(iso) || Number.isNaN(date.getTime()) || isoDateOf(date) !== iso)
    throw new RangeError(`Not a date: ${iso}`);
  return iso.replaceAll("-", "");
}

/** "20260210T193000Z", to the second. */
function writeUtc(at: Date): string {
  return `${at.toISOString().slice(0, 19).replaceAll(/[-:]/g, "")}Z`;
}

/** Whole minutes, a begun one counted as one, at least one: "PT13M". */
function writeMinutes(lengthSeconds: number): string {
  if (!(lengthSeconds >= 0)) throw new RangeError(`Not a length: ${lengthSeconds} s`);
  return `PT${Math.max(1, Math.ceil(lengthSeconds / 60))}M`;
}
