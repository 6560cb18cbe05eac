import { type CalendarEvent, writeCalendar } from "@/lib/calendar/write-calendar";
import { download } from "./download";

/** A calendar file with one entry, named after it. Source: RFC 5545, 8.1 (media type). */
export function calendarFile(event: CalendarEvent): Response {
  const plain = event.summary
    .replace(/[\\/:*?"<>|]/g, " ")
    .replace(/\s+/g, " ")
    .trim();
  return download(writeCalendar([event]), {
    name: `${plain || "performance"}.ics`,
    type: "text/calendar; charset=utf-8; component=vevent",
  });
}
