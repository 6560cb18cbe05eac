import { previewPicture } from "@/app/_data/editions/preview-pages";
import { forViewer } from "@/app/api/_edge/for-viewer";
import { picture } from "@/app/api/_edge/picture";

/** A page of an edition as SVG, under the options of `…/pages`; `key`, which the plan has, makes it the same for good. */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ pieceId: string; number: string; page: string }> },
): Promise<Response> {
  const { pieceId, number, page } = await params;
  const asked = Object.fromEntries(new URL(request.url).searchParams);
  return forViewer(
    (viewer) => previewPicture(viewer, pieceId, page, { ...asked, number }),
    (packed) => picture(packed, asked.key !== undefined),
  );
}
