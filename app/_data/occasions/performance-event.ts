import type { CalendarEvent } from "@/lib/calendar/write-calendar";
import { sayClock } from "@/lib/score/say-clock";
import type { MyPerformance } from "@/lib/store/performances/list-performances";

/** A performance as an entry of a calendar. @param publicUrl address of the product, as people type it. */
export function performanceEvent(performance: MyPerformance, publicUrl: URL): CalendarEvent {
  const { id, pieceId, pieceTitle, name, on, startsAt, place, revision, changedAt } = performance;
  return {
    ...{ uid: id, sequence: revision, changedAt: new Date(changedAt), on, startsAt },
    lengthSeconds: performance.realSeconds ?? performance.plannedSeconds,
    summary: `${name}: ${pieceTitle}`,
    location: place,
    description: describe(performance).join("\n"),
    url: new URL(`/pieces/${pieceId}/editions`, publicUrl).href,
  };
}

function describe(performance: MyPerformance): string[] {
  const { pieceTitle, editionNumber, plannedSeconds, realSeconds, limitSeconds, result } = performance;
  const limit = limitSeconds === null ? "" : ` of ${sayClock(limitSeconds)}`;
  return [
    `${pieceTitle}, edition № ${editionNumber}`,
    realSeconds === null
      ? `Planned: ${sayClock(plannedSeconds)}${limit}`
      : `Played in ${sayClock(realSeconds)}${limit}, planned ${sayClock(plannedSeconds)}`,
    ...(result === "" ? [] : [`Result: ${result}`]),
  ];
}
