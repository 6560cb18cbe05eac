import { privateJson, problemResponse } from "@/app/api/_edge/problem-response";
import { lookIntoPieceFile } from "@/lib/store/archive/import-piece";
import { readPieceFile } from "../read-piece-file";

/** What a piece that was taken along holds, and everything that is wrong with it: a form with `file`. Nothing is stored. */
export async function POST(request: Request): Promise<Response> {
  const sent = await readPieceFile(request);
  if (sent instanceof Response) return sent;
  const looked = await lookIntoPieceFile(sent.viewer, sent.bytes);
  return looked.ok ? privateJson(looked.value) : problemResponse(looked.problem);
}
