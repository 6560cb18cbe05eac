import { forViewer } from "@/app/api/_edge/for-viewer";
import { privateJson } from "@/app/api/_edge/problem-response";
import { readJson } from "@/app/api/_edge/read-json";
import { isSameOrigin, otherOriginResponse } from "@/app/api/_edge/same-origin";
import { drawPassage } from "@/lib/store/passages/draw-passage";

/**
 * Some bars of the reduction, drawn: JSON `{ sourceHash, fromBar, toBar, rewrite, as: "printed" | "instead" | "ossia", layout }` →
 * `DrawnPassage`. It changes nothing; it is a POST because a rewrite does not fit an address.
 */
export async function POST(
  request: Request,
  { params }: { params: Promise<{ pieceId: string }> },
): Promise<Response> {
  if (!isSameOrigin(request)) return otherOriginResponse();
  const { pieceId } = await params;
  return forViewer(
    async (viewer) => {
      const asked = await readJson(request);
      return asked.ok ? drawPassage(viewer, pieceId, asked.value) : asked;
    },
    (passage) => privateJson(passage),
  );
}
