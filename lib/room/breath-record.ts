import { z } from "zod";
import { positionRecordSchema } from "./position-record";
import { recordIdSchema } from "./record-id";

/** One breath mark of the solo part, in map `breaths`. Only its author writes it. */
export const breathRecordSchema = z.strictObject({
  id: recordIdSchema,
  authorId: recordIdSchema,
  at: positionRecordSchema,
  /** A removed breath stays, so that it can be brought back. */
  deletedAt: z.iso.datetime().nullable(),
});

export type BreathRecord = z.infer<typeof breathRecordSchema>;
