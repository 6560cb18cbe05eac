import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { type DrawnPassage, drawnPassageSchema } from "@/lib/engrave/passage/drawn-passage";

/** Some bars of the reduction, and how a rewrite of them is shown. */
export interface PassageToDraw {
  readonly pieceId: string;
  readonly sourceHash: string;
  /** Bars by index, both included. */
  readonly fromBar: number;
  readonly toBar: number;
  readonly rewrite: RewriteTerms | null;
  readonly as: "printed" | "instead" | "ossia";
  readonly layout: "desk" | "tablet" | "phone";
}

/** It could not be drawn; the message is for the reader. */
export class PassageFailure extends Error {
  override readonly name = "PassageFailure";
}

const notArrived = "The notes did not arrive. Check the connection.";

/** Drawn lately in this page, so that taking something back draws at once. */
const lately = new Map<string, DrawnPassage>();
const mostKept = 60;

/** @throws PassageFailure (rejects) with a sentence; the signal's reason when it was given up. */
export async function fetchPassage(asked: PassageToDraw, signal: AbortSignal): Promise<DrawnPassage> {
  const name = JSON.stringify(asked);
  const known = lately.get(name);
  if (known) return known;
  const passage = await ask(asked, signal);
  lately.set(name, passage);
  const [oldest] = lately.keys();
  if (lately.size > mostKept && oldest !== undefined) lately.delete(oldest);
  return passage;
}

async function ask({ pieceId, ...asked }: PassageToDraw, signal: AbortSignal): Promise<DrawnPassage> {
  let response: Response;
  try {
    response = await fetch(`/api/pieces/${pieceId}/passage`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(asked),
      signal,
    });
  } catch {
    signal.throwIfAborted();
    throw new PassageFailure(notArrived);
  }
  const body: unknown = await response.json().catch(() => null);
  signal.throwIfAborted();
  const read = drawnPassageSchema.safeParse(body);
  if (response.ok && read.success) return read.data;
  throw new PassageFailure(sentenceOf(body) ?? notArrived);
}

function sentenceOf(body: unknown): string | null {
  if (typeof body !== "object" || body === null || !("sentence" in body)) return null;
  return typeof body.sentence === "string" ? body.sentence : null;
}
