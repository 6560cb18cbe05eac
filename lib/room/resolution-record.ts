import { z } from "zod";
import { recordIdSchema } from "./record-id";

/** Who last resolved or reopened a comment, in map `resolutions` under the comment's id. */
export const resolutionRecordSchema = z.strictObject({
  commentId: recordIdSchema,
  /** Who wrote this record. */
  byId: recordIdSchema,
  at: z.iso.datetime(),
  isResolved: z.boolean(),
});

export type ResolutionRecord = z.infer<typeof resolutionRecordSchema>;
