import { z } from "zod";
import { awaitReading } from "@/app/_read/await-reading";
import { tellWorker } from "./tell-worker";

const newestSchema = z.object({ number: z.int().min(1).nullable(), for: z.enum(["pianist", "soloist"]) });

/**
 * Puts the newest edition of a piece by, as this person reads it, so that it lies on the device also when it was never
 * opened there. Waits while its pages are being engraved.
 */
export async function keepNewestEdition(userId: string, pieceId: string, signal: AbortSignal): Promise<void> {
  const answer = await fetch(`/api/pieces/${pieceId}/editions/newest`, { signal });
  const newest = newestSchema.safeParse(await answer.json().catch(() => null));
  if (!newest.success || newest.data.number === null) return;
  const { number, for: reader } = newest.data;
  const reading = `/api/pieces/${pieceId}/editions/${number}/reading?for=${reader}`;
  await awaitReading(reading, signal);
  await tellWorker({
    kind: "keep",
    ...{ userId, pieceId, edition: number },
    pages: [`/pieces/${pieceId}/read/${number}`],
    files: [],
    engravings: [reading],
  });
}
