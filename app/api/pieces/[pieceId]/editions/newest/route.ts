import { forViewer } from "@/app/api/_edge/for-viewer";
import { privateJson } from "@/app/api/_edge/problem-response";
import { readNewestEdition } from "@/lib/store/readings/read-reading";

/** `{ number, for }`: the newest edition of a piece, null before the first, and whose pages this member reads. */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ pieceId: string }> },
): Promise<Response> {
  const { pieceId } = await params;
  return forViewer((viewer) => readNewestEdition(viewer, pieceId), privateJson);
}
