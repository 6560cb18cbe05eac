import { makeEditionFile } from "@/app/_data/editions/make-edition-file";
import { download } from "@/app/api/_edge/download";
import { forViewer } from "@/app/api/_edge/for-viewer";

/** A file of an edition: `pianist.pdf`, `soloist.pdf`, `cut-sheet.pdf` (`?paper=A4|Letter`) or `edition.musicxml`. */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ pieceId: string; number: string; file: string }> },
): Promise<Response> {
  const { pieceId, number, file } = await params;
  const paper = new URL(request.url).searchParams.get("paper") ?? undefined;
  return forViewer(
    (viewer) => makeEditionFile(viewer, pieceId, { number, file, paper }),
    ({ bytes, ...named }) => download(bytes, named),
  );
}
