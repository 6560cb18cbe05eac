import { z } from "zod";
import { awaitReading } from "@/app/_read/await-reading";
import { type EditionOnStand, pageOfEdition, planOfEdition } from "./edition-on-stand";
import { noteKept } from "./keep-soon";
import { askWorker } from "./tell-worker";

/** Puts an edition by, as this person reads it. Waits while its pages are being engraved, and until they are put by. */
export async function keepEdition(
  userId: string,
  edition: EditionOnStand,
  signal: AbortSignal,
): Promise<void> {
  const plan = planOfEdition(edition);
  await awaitReading(plan, signal);
  await askWorker({
    kind: "keep",
    ...{ userId, pieceId: edition.pieceId, edition: edition.number, programme: null },
    ...{ pages: [pageOfEdition(edition)], files: [], engravings: [plan] },
  });
  noteKept();
}

const newestSchema = z.object({ number: z.int().min(1).nullable(), for: z.enum(["pianist", "soloist"]) });

/**
 * Puts the newest edition of a piece by, as this person reads it, so that it lies on the device also when it was never
 * opened there.
 */
export async function keepNewestEdition(userId: string, pieceId: string, signal: AbortSignal): Promise<void> {
  const answer = await fetch(`/api/pieces/${pieceId}/editions/newest`, { signal });
  const newest = newestSchema.safeParse(await answer.json().catch(() => null));
  if (!newest.success || newest.data.number === null) return;
  const { number, for: reader } = newest.data;
  await keepEdition(userId, { pieceId, number, reader }, signal);
}
