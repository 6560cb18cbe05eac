import { z } from "zod";

const answerSchema = z.object({ changedAt: z.iso.datetime() });

/** When the server last changed the piece, ISO 8601; null when it cannot be asked now. */
export async function askChangedAt(pieceId: string): Promise<string | null> {
  try {
    const response = await fetch(`/api/pieces/${pieceId}/changed-at`, { cache: "no-store" });
    return response.ok ? answerSchema.parse(await response.json()).changedAt : null;
  } catch {
    return null;
  }
}
