import { forViewer } from "@/app/api/_edge/for-viewer";
import { picture, systemIndex } from "@/app/api/_edge/picture";
import { readEngravedSystem } from "@/lib/store/engravings/read-engraving";

/** The picture of one system. The key names its content, so a browser may keep it for good. */
export async function GET(
  _request: Request,
  { params }: { params: Promise<{ pieceId: string; key: string; system: string }> },
): Promise<Response> {
  const { pieceId, key, system } = await params;
  return forViewer(
    (viewer) => readEngravedSystem(viewer, pieceId, key, systemIndex(system)),
    (packed) => picture(packed),
  );
}
