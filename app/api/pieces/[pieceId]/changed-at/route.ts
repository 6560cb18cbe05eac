import { forViewer } from "@/app/api/_edge/for-viewer";
import { privateJson } from "@/app/api/_edge/problem-response";
import { readChangedAt } from "@/lib/store/pieces/read-changed-at";

/** When the piece was last changed outside its room → `{ changedAt }`, ISO 8601. */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ pieceId: string }> },
): Promise<Response> {
  const { pieceId } = await params;
  return forViewer(
    (viewer) => readChangedAt(viewer, pieceId),
    (changedAt) => privateJson({ changedAt: changedAt.toISOString() }),
  );
}
