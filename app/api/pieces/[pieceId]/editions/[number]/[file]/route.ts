import { makeEditionFile } from "@/app/_data/editions/make-edition-file";
import { download } from "@/app/api/_edge/download";
import { forViewer } from "@/app/api/_edge/for-viewer";

/**
 * A file of an edition: `pianist.pdf`, `soloist.pdf`, `cut-sheet.pdf` or `edition.musicxml`. How it is printed stands in the
 * query: see `printOptionsSchema`.
 */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ pieceId: string; number: string; file: string }> },
): Promise<Response> {
  const { pieceId, number, file } = await params;
  const asked = Object.fromEntries(new URL(request.url).searchParams);
  return forViewer(
    (viewer) => makeEditionFile(viewer, pieceId, { ...asked, number, file }),
    ({ bytes, ...named }) => download(bytes, named),
  );
}
