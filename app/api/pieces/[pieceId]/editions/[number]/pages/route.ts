import { previewPages } from "@/app/_data/editions/preview-pages";
import { forViewer } from "@/app/api/_edge/for-viewer";
import { privateJson } from "@/app/api/_edge/problem-response";

/**
 * The pages of an edition as they will be printed: `?reader=pianist|soloist` and the other options of `printOptionsSchema` → 200
 * with a `PagesPlan`, or 202 with `{ progress }`, 0 to 1. The pictures lie under it: `…/pages/1`.
 */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ pieceId: string; number: string }> },
): Promise<Response> {
  const { pieceId, number } = await params;
  const asked = Object.fromEntries(new URL(request.url).searchParams);
  return forViewer(
    (viewer) => previewPages(viewer, pieceId, { ...asked, number }),
    (seen) =>
      seen.state === "made" ? privateJson(seen.value) : privateJson({ progress: seen.progress }, 202),
  );
}
