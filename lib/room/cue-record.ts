import { z } from "zod";
import { longestCue } from "@/lib/edition/cue-terms";
import { positionRecordSchema } from "./position-record";
import { recordIdSchema } from "./record-id";

/**
 * One cue over the reduction, in map `cues`: the shorthand of the instrument that has the line from here, or a short word
 * of the player's own. Only its author writes it.
 */
export const cueRecordSchema = z.strictObject({
  id: recordIdSchema,
  authorId: recordIdSchema,
  at: positionRecordSchema,
  text: z
    .string()
    .trim()
    .min(1)
    // As an edition writes it: in normal form C, which is longer for some letters.
    .refine((text) => text.normalize("NFC").length <= longestCue, `at most ${longestCue} letters`),
  /** A cue that was taken off stays, so that it can be brought back. */
  deletedAt: z.iso.datetime().nullable(),
});

export type CueRecord = z.infer<typeof cueRecordSchema>;
