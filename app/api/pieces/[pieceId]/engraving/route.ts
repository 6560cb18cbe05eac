import { forViewer } from "@/app/api/_edge/for-viewer";
import { privateJson } from "@/app/api/_edge/problem-response";
import { engravePiece } from "@/lib/store/engravings/engrave-piece";

/**
 * The engraving of a piece: `?view=open|as-it-will-read|solo&layout=desk|tablet|phone` → 200 with `{ key, rendererVersion,
 * systems }`, without pictures, or 202 with `{ progress }` while it is being made.
 */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ pieceId: string }> },
): Promise<Response> {
  const { pieceId } = await params;
  const asked = Object.fromEntries(new URL(request.url).searchParams);
  return forViewer(
    (viewer) => engravePiece(viewer, pieceId, asked),
    (engraving) =>
      engraving.state === "ready"
        ? privateJson(engraving.summary)
        : privateJson({ progress: engraving.progress }, 202),
  );
}
