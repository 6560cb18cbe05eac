import { readViewer } from "@/app/_data/viewer";
import { privateJson, problemResponse, signedOutResponse } from "@/app/api/_edge/problem-response";
import { fileOf, readForm, textOf } from "@/app/api/_edge/read-form";
import { isSameOrigin, otherOriginResponse } from "@/app/api/_edge/same-origin";
import { engravePiece } from "@/lib/store/engravings/engrave-piece";
import { createPiece } from "@/lib/store/pieces/create-piece";

/** Brings a piece: a form with `file`, `role` and, if wanted, `title` and `instrument` → `{ pieceId, notices }`. */
export async function POST(request: Request): Promise<Response> {
  if (!isSameOrigin(request)) return otherOriginResponse();
  const viewer = await readViewer();
  if (!viewer) return signedOutResponse();
  const form = await readForm(request);
  if (!form.ok) return problemResponse(form.problem);
  const file = await fileOf(form.value);
  if (!file.ok) return problemResponse(file.problem);
  const [title, instrument, role] = ["title", "instrument", "role"].map((name) => textOf(form.value, name));
  const created = await createPiece(viewer, { title, instrument, role }, file.value);
  if (!created.ok) return problemResponse(created.problem);
  // The score is engraved while the person looks around; nobody waits for it here.
  void engravePiece(viewer, created.value.pieceId, {}).catch((error) =>
    console.error("engraving failed", error),
  );
  return privateJson(created.value, 201);
}
