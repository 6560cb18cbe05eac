import { z } from "zod";
import { comparePositions } from "@/lib/score/position";
import { positionRecordSchema, toPosition } from "./position-record";
import { recordIdSchema } from "./record-id";
import { maxOver } from "./room-limits";

/**
 * One version of a pencilled cut, in map `pencilledCuts` under its own id. A version is never changed once it is
 * written: a move, a rubbing out or a settling is a new version that names those it was written over. Two who move a
 * cut at the same time therefore both keep what they wrote.
 */
export const pencilledVersionRecordSchema = z
  .strictObject({
    id: recordIdSchema,
    /** The cut that this is a version of; the same in all its versions. */
    cutId: recordIdSchema,
    authorId: recordIdSchema,
    createdAt: z.iso.datetime(),
    from: positionRecordSchema,
    to: positionRecordSchema,
    /** The versions of the same cut that its writer saw and wrote over. */
    over: z.array(recordIdSchema).max(maxOver),
    /** A cut that was rubbed out stays, so that it can be brought back. */
    isRubbedOut: z.boolean(),
  })
  .refine(({ from, to }) => comparePositions(toPosition(from), toPosition(to)) < 0, {
    message: "the cut ends before it begins",
    when: ({ issues }) => issues.length === 0,
  })
  .refine(({ id, over }) => !over.includes(id), { message: "a version is not written over itself" });

export type PencilledVersionRecord = z.infer<typeof pencilledVersionRecordSchema>;
