import { download } from "@/app/api/_edge/download";
import { forViewer } from "@/app/api/_edge/for-viewer";
import { exportPiece } from "@/lib/store/archive/export-piece";

/** The whole piece to take along, as one zip archive in open formats. */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ pieceId: string }> },
): Promise<Response> {
  const { pieceId } = await params;
  return forViewer(
    (viewer) => exportPiece(viewer, pieceId, { withPages: true }),
    ({ title, bytes }) => {
      const plain = title.replace(/[\\/:*?"<>|]/g, " ").trim();
      return download(bytes, { name: `${plain}, the whole piece.zip`, type: "application/zip" });
    },
  );
}
