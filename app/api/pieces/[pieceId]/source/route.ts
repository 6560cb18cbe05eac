import { download } from "@/app/api/_edge/download";
import { forViewer } from "@/app/api/_edge/for-viewer";
import { readSourceBytes } from "@/lib/store/pieces/read-source-bytes";

/** The uploaded file, byte for byte. */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ pieceId: string }> },
): Promise<Response> {
  const { pieceId } = await params;
  return forViewer(
    (viewer) => readSourceBytes(viewer, pieceId),
    ({ bytes, fileName }) => download(bytes, { name: fileName, type: "application/octet-stream" }),
  );
}
