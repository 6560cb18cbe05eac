import { z } from "zod";

const problemSchema = z.object({ kind: z.string(), sentence: z.string() });

export type Sent =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly sentence: string };

const lost = "The connection broke off. Nothing was stored; the file is still chosen here. Send it again.";

/**
 * Sends a form with a file. `fetch` cannot tell how much has been sent, so this is the older request.
 *
 * @param onSent called with the share of the bytes that are on their way, 0 to 1.
 */
export function sendFile(address: string, form: FormData, onSent: (share: number) => void): Promise<Sent> {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest();
    request.upload.addEventListener("progress", ({ loaded, total }) =>
      onSent(total > 0 ? loaded / total : 0),
    );
    request.addEventListener("error", () => resolve({ ok: false, sentence: lost }));
    request.addEventListener("load", () => resolve(readAnswer(request)));
    request.open("POST", address);
    request.send(form);
  });
}

function readAnswer({ status, responseText }: XMLHttpRequest): Sent {
  const answer = readJson(responseText);
  if (status >= 200 && status < 300 && answer !== undefined) return { ok: true, value: answer };
  const problem = problemSchema.safeParse(answer);
  return { ok: false, sentence: problem.success ? problem.data.sentence : lost };
}

function readJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
