import { forViewer } from "@/app/api/_edge/for-viewer";
import { readingResponse } from "@/app/api/_edge/reading-response";
import { readReading } from "@/lib/store/readings/read-reading";

/**
 * An edition on the pages of a tablet: `?for=pianist|soloist` → 200 with `{ key, width, height, pages }`, without pictures,
 * or 202 with `{ progress }`. The pictures lie beside those of the piece: `/api/pieces/…/engraving/<key>/<index>`.
 */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ pieceId: string; number: string }> },
): Promise<Response> {
  const { pieceId, number } = await params;
  const reader = new URL(request.url).searchParams.get("for") ?? undefined;
  return forViewer((viewer) => readReading(viewer, pieceId, { number, for: reader }), readingResponse);
}
