import { toSourcePreview } from "@/app/_data/source-preview";
import { readViewer } from "@/app/_data/viewer";
import { privateJson, problemResponse, signedOutResponse } from "@/app/api/_edge/problem-response";
import { fileOf, readForm } from "@/app/api/_edge/read-form";
import { isSameOrigin, otherOriginResponse } from "@/app/api/_edge/same-origin";
import { previewSource } from "@/lib/store/pieces/preview-source";

/** What a file holds, before it becomes a piece: a form with `file`. Nothing is stored. */
export async function POST(request: Request): Promise<Response> {
  if (!isSameOrigin(request)) return otherOriginResponse();
  const viewer = await readViewer();
  if (!viewer) return signedOutResponse();
  const form = await readForm(request);
  if (!form.ok) return problemResponse(form.problem);
  const file = await fileOf(form.value);
  if (!file.ok) return problemResponse(file.problem);
  const preview = await previewSource(viewer, file.value);
  return preview.ok ? privateJson(toSourcePreview(preview.value)) : problemResponse(preview.problem);
}
