import { programmeEvent } from "@/app/_data/occasions/programme-event";
import { publicUrl } from "@/app/_data/public-url";
import { calendarFile } from "@/app/api/_edge/calendar-file";
import { forViewer } from "@/app/api/_edge/for-viewer";
import { readProgramme } from "@/lib/store/programmes/read-programme";

/** A programme for somebody's calendar, with what they may see of it. */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ programmeId: string }> },
): Promise<Response> {
  const { programmeId } = await params;
  return forViewer(
    (viewer) => readProgramme(viewer, programmeId),
    (programme) => calendarFile(programmeEvent(programme, publicUrl())),
  );
}
