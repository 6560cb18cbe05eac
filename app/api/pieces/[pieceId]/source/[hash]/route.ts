import { forViewer } from "@/app/api/_edge/for-viewer";
import { hashSchema } from "@/lib/edition/cut-terms";
import { failure } from "@/lib/score/result";
import { readSourceBytes } from "@/lib/store/pieces/read-source-bytes";

/** A year: the address names the content. Only the browser itself keeps it, because only members may have it. */
const cacheControl = "private, max-age=31536000, immutable";

/** The uploaded file named by its hash, for the page that studies it. */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ pieceId: string; hash: string }> },
): Promise<Response> {
  const { pieceId, hash } = await params;
  return forViewer(
    async (viewer) =>
      hashSchema.safeParse(hash).success
        ? readSourceBytes(viewer, pieceId, { hash })
        : failure({ kind: "not-found" as const }),
    ({ bytes }) =>
      new Response(bytes, {
        headers: {
          "content-type": "application/octet-stream",
          "cache-control": cacheControl,
          "x-content-type-options": "nosniff",
        },
      }),
  );
}
