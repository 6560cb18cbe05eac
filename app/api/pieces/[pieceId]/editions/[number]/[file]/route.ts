import { makeEditionFile } from "@/app/_data/editions/make-edition-file";
import { download } from "@/app/api/_edge/download";
import { forViewer } from "@/app/api/_edge/for-viewer";
import { privateJson } from "@/app/api/_edge/problem-response";

/**
 * A file of an edition: `pianist.pdf`, `soloist.pdf`, `cut-sheet.pdf`, `changes.pdf` (`?from=3`, what
 * changed since that edition) or `edition.musicxml`. How it is printed stands in the query: see `printOptionsSchema`. With `soon=yes` a
 * file that is not ready yet answers 202 with `{ progress }`, 0 to 1.
 */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ pieceId: string; number: string; file: string }> },
): Promise<Response> {
  const { pieceId, number, file } = await params;
  const asked = Object.fromEntries(new URL(request.url).searchParams);
  return forViewer(
    (viewer) => makeEditionFile(viewer, pieceId, { ...asked, number, file }),
    (seen) => {
      if (seen.state === "making") return privateJson({ progress: seen.progress }, 202);
      const { bytes, ...named } = seen.value;
      return download(bytes, named);
    },
  );
}
