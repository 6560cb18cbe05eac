import { performanceEvent } from "@/app/_data/occasions/performance-event";
import { publicUrl } from "@/app/_data/public-url";
import { calendarFile } from "@/app/api/_edge/calendar-file";
import { forViewer } from "@/app/api/_edge/for-viewer";
import { readPerformance } from "@/lib/store/performances/read-performance";

/** A performance for somebody's calendar. */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ pieceId: string; performanceId: string }> },
): Promise<Response> {
  const { pieceId, performanceId } = await params;
  return forViewer(
    (viewer) => readPerformance(viewer, pieceId, performanceId),
    (performance) => calendarFile(performanceEvent(performance, publicUrl())),
  );
}
