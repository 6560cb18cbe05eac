import { gunzipSync } from "node:zlib";
import { forViewer } from "@/app/api/_edge/for-viewer";
import { readEngravedSystem } from "@/lib/store/engravings/read-engraving";

/** The picture of one system. The key names its content, so a browser may keep it for good. */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ pieceId: string; key: string; system: string }> },
): Promise<Response> {
  const { pieceId, key, system } = await params;
  const index = /^\d{1,6}$/.test(system) ? Number(system) : -1;
  return forViewer((viewer) => readEngravedSystem(viewer, pieceId, key, index), picture);
}

/** Sent unpacked: Next (16.4) takes `content-encoding` off what a route answers, and packs the answer itself. */
function picture(packed: Uint8Array<ArrayBuffer>): Response {
  const headers = new Headers({
    "content-type": "image/svg+xml; charset=utf-8",
    // Opened by itself it is a document: it may draw, and nothing else.
    "content-security-policy": "default-src 'none'; style-src 'unsafe-inline'; sandbox",
    "x-content-type-options": "nosniff",
    "cache-control": "private, max-age=31536000, immutable",
    vary: "cookie",
  });
  return new Response(gunzipSync(packed), { headers });
}
