import { privateJson, problemResponse } from "@/app/api/_edge/problem-response";
import { textOf } from "@/app/api/_edge/read-form";
import { importPiece } from "@/lib/store/archive/import-piece";
import { engravePiece } from "@/lib/store/engravings/engrave-piece";
import { readPieceFile } from "./read-piece-file";

/** Brings in a piece that was taken along: a form with `file` and `who` → `{ pieceId }`. */
export async function POST(request: Request): Promise<Response> {
  const sent = await readPieceFile(request);
  if (sent instanceof Response) return sent;
  const { viewer, form, bytes } = sent;
  const brought = await importPiece(viewer, { who: textOf(form, "who") }, bytes);
  if (!brought.ok) return problemResponse(brought.problem);
  // The score is engraved while the person looks around; nobody waits for it here.
  void engravePiece(viewer, brought.value.pieceId, {}).catch((error) =>
    console.error("engraving failed", error),
  );
  return privateJson(brought.value, 201);
}
