import { failure, type Result, success } from "@/lib/score/result";
import { largestSourceBytes } from "@/lib/store/pieces/source-limits";
import type { StoreProblem } from "@/lib/store/store-problem";

/** What a form may weigh besides its file. */
const formBytes = 64 * 1024;
/**
 * A form with one file (`multipart/form-data`), read up to the limit and not a byte further, whatever length the
 * client claims.
 *
 * @param limitBytes of the file.
 */
export async function readForm(
  request: Request,
  limitBytes = largestSourceBytes,
): Promise<Result<FormData, StoreProblem>> {
  const tooLarge: StoreProblem = { kind: "too-large", limitBytes };
  const most = limitBytes + formBytes;
  if (Number(request.headers.get("content-length") ?? 0) > most) return failure(tooLarge);
  const type = request.headers.get("content-type") ?? "";
  if (!type.startsWith("multipart/form-data")) return failure(notAForm);
  const body = await readUpTo(request, most);
  if (body === null) return failure(tooLarge);
  try {
    return success(await new Response(body, { headers: { "content-type": type } }).formData());
  } catch (error) {
    // The platform's form parser throws a TypeError for a form that is cut off or malformed.
    if (error instanceof TypeError) return failure(notAForm);
    throw error;
  }
}

const notAForm: StoreProblem = {
  kind: "invalid-input",
  sentence: "The upload did not arrive whole. Nothing was stored; send it again.",
};

/** The body of a request, up to so many bytes and not one further; null when it has more. */
export async function readUpTo(request: Request, most: number): Promise<Blob | null> {
  if (!request.body) return new Blob();
  const chunks: Uint8Array<ArrayBuffer>[] = [];
  let length = 0;
  for await (const chunk of request.body as ReadableStream<Uint8Array<ArrayBuffer>>) {
    length += chunk.byteLength;
    if (length > most) return null;
    chunks.push(chunk);
  }
  return new Blob(chunks);
}

/**
 * The form's file named `file`.
 *
 * @param ask what to choose when there is none.
 */
export async function fileOf(
  form: FormData,
  ask = "Choose a MusicXML file (.musicxml, .xml or .mxl).",
): Promise<Result<{ fileName: string; bytes: Uint8Array<ArrayBuffer> }, StoreProblem>> {
  const file = form.get("file");
  if (!(file instanceof Blob) || file.size === 0) return failure({ kind: "invalid-input", sentence: ask });
  const fileName = "name" in file && typeof file.name === "string" ? file.name : "";
  return success({ fileName, bytes: new Uint8Array(await file.arrayBuffer()) });
}

/** A form's text field; undefined when it is missing or empty. */
export function textOf(form: FormData, name: string): string | undefined {
  const value = form.get(name);
  return typeof value === "string" && value !== "" ? value : undefined;
}
