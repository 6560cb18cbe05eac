import { gunzipSync } from "node:zlib";
import { forViewer } from "@/app/api/_edge/for-viewer";
import { readEngravedSystem } from "@/lib/store/engravings/read-engraving";

/** The picture of one system. The key names its content, so a browser may keep it for good. */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ pieceId: string; key: string; system: string }> },
): Promise<Response> {
  const { pieceId, key, system } = await params;
  const index = /^\d{1,6}$/.test(system) ? Number(system) : -1;
  const takesGzip = /\bgzip\b/.test(request.headers.get("accept-encoding") ?? "");
  return forViewer(
    (viewer) => readEngravedSystem(viewer, pieceId, key, index),
    (packed) => picture(packed, takesGzip),
  );
}

function picture(packed: Uint8Array<ArrayBuffer>, takesGzip: boolean): Response {
  const headers = new Headers({
    "content-type": "image/svg+xml; charset=utf-8",
    // Opened by itself it is a document: it may draw, and nothing else.
    "content-security-policy": "default-src 'none'; style-src 'unsafe-inline'; sandbox",
    "x-content-type-options": "nosniff",
    "cache-control": "private, max-age=31536000, immutable",
    vary: "cookie, accept-encoding",
  });
  if (takesGzip) headers.set("content-encoding", "gzip");
  return new Response(takesGzip ? packed : gunzipSync(packed), { headers });
}
