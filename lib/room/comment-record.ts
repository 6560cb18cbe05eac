import { z } from "zod";
import { longestRemark } from "@/lib/edition/remark-terms";
import { comparePositions } from "@/lib/score/position";
import { positionRecordSchema, toPosition } from "./position-record";
import { recordIdSchema } from "./record-id";
import { maxCommentLength } from "./room-limits";

const spanSchema = z
  .strictObject({ kind: z.literal("span"), from: positionRecordSchema, to: positionRecordSchema })
  .refine((span) => comparePositions(toPosition(span.from), toPosition(span.to)) <= 0, {
    message: "the span ends before it begins",
    when: ({ issues }) => issues.length === 0,
  });

const proposalSchema = z.strictObject({ kind: z.literal("proposal"), proposalId: recordIdSchema });

/**
 * One comment in map `comments`. Only its author ever writes it, so that two people at once never overwrite
 * one another; whether it is resolved stands in map `resolutions`.
 */
export const commentRecordSchema = z
  .strictObject({
    id: recordIdSchema,
    authorId: recordIdSchema,
    createdAt: z.iso.datetime(),
    text: z.string().trim().min(1).max(maxCommentLength),
    about: z.discriminatedUnion("kind", [spanSchema, proposalSchema]),
    /** The comment this one answers. */
    replyTo: recordIdSchema.nullable(),
    /** A deleted comment stays, so that it can be brought back. */
    deletedAt: z.iso.datetime().nullable(),
    /** When its text was last changed; absent in records from before this was kept. */
    editedAt: z.iso.datetime().nullable().optional(),
    /** Whether its author wants it printed in the edition, at its bars. */
    print: z.boolean(),
  })
  .refine(({ print, about }) => !print || about.kind === "span", {
    message: "only a comment about bars is printed",
    path: ["print"],
    when: ({ issues }) => issues.length === 0,
  })
  // As an edition writes it: in normal form C, which is longer for some letters.
  .refine(({ print, text }) => !print || text.normalize("NFC").length <= longestRemark, {
    message: `what is printed has at most ${longestRemark} letters`,
    path: ["text"],
    when: ({ issues }) => issues.length === 0,
  });

export type CommentRecord = z.infer<typeof commentRecordSchema>;
