import { readViewer } from "@/app/_data/viewer";
import { problemResponse, signedOutResponse } from "@/app/api/_edge/problem-response";
import { fileOf, readForm } from "@/app/api/_edge/read-form";
import { isSameOrigin, otherOriginResponse } from "@/app/api/_edge/same-origin";
import type { Viewer } from "@/lib/store/viewer";

/** Largest file that is taken in over the web: many editions and sources of a piece stay far below. */
const largestPieceBytes = 128 * 1024 * 1024;

export interface SentPieceFile {
  readonly viewer: Viewer;
  readonly form: FormData;
  readonly bytes: Uint8Array;
}

/** A form with a piece that was taken along, from somebody signed in; else the answer that says what is wrong. */
export async function readPieceFile(request: Request): Promise<SentPieceFile | Response> {
  if (!isSameOrigin(request)) return otherOriginResponse();
  const viewer = await readViewer();
  if (!viewer) return signedOutResponse();
  const form = await readForm(request, largestPieceBytes);
  if (!form.ok) return problemResponse(form.problem);
  const file = await fileOf(form.value, "Choose the file of a piece that was taken along (.zip).");
  if (!file.ok) return problemResponse(file.problem);
  return { viewer, form: form.value, bytes: file.value.bytes };
}
