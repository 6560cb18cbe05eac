import { z } from "zod";
import { handsProfileSchema } from "@/lib/hands/hands-profile";
import { practiceEntrySchema } from "@/lib/practice/practice-entry";
import { archivedRoleSchema, lineSchema, momentSchema, wordsSchema } from "./archive-fields";
import {
  archivedApprovalsSchema,
  archivedHintsSchema,
  archivedNeedsSchema,
  archivedPerformancesSchema,
  archivedProposalsSchema,
  archivedRewritesSchema,
  archivedTrailSchema,
} from "./decision-schemas";
import { archivedRoomSchema } from "./room-schema";

/** account.json: who the person is here, and which pieces they belong or belonged to. */
export const accountSchema = z.strictObject({
  schema: z.literal(2),
  name: lineSchema,
  email: lineSchema,
  createdAt: momentSchema,
  /** Whether news are sent by e-mail. */
  wantsDigest: z.boolean(),
  /** What lies under the person's hands, by their own word; null while the usual hands hold. */
  hands: handsProfileSchema.nullable(),
  memberships: z.array(
    z.strictObject({
      /** The file with what the person wrote in it. */
      file: lineSchema,
      title: lineSchema,
      composer: lineSchema.nullable(),
      role: archivedRoleSchema,
      joinedAt: momentSchema,
      leftAt: momentSchema.nullable(),
    }),
  ),
});

const proposalSchema = archivedProposalsSchema.shape.proposals.element;
const rewriteProposalSchema = archivedRewritesSchema.shape.proposals.element;
const anySharing = z.enum(["only me", "told", "asked"]);

/** A version of a rewrite, also one that nobody else ever saw. */
const ownRewriteSchema = archivedRewritesSchema.shape.rewrites.element
  .omit({ key: true, by: true, replaces: true, proposal: true, events: true })
  .extend({
    sharing: anySharing,
    events: z.array(
      archivedRewritesSchema.shape.rewrites.element.shape.events.element
        .omit({ by: true })
        .extend({ sharing: anySharing }),
    ),
  });

/** pieces/N.json: everything that the person wrote in one piece, and said to what others wrote. People have keys. */
export const writtenInPieceSchema = z.strictObject({
  schema: z.literal(2),
  title: lineSchema,
  /** The person's own key. */
  me: lineSchema,
  proposals: z.array(proposalSchema.omit({ answers: true })),
  rewriteProposals: z.array(rewriteProposalSchema.omit({ answers: true })),
  answers: z.array(
    z.strictObject({
      /** What was answered to. */
      number: z.int(),
      terms: z.union([proposalSchema.shape.terms, rewriteProposalSchema.shape.terms]),
      answer: proposalSchema.shape.answers.element.omit({ by: true }),
    }),
  ),
  /** Everything that the person wrote to be played instead of the print. */
  rewrites: z.array(ownRewriteSchema),
  hints: archivedHintsSchema.shape.hints,
  /** The person's own log, with what was taken off it. */
  practice: z.array(practiceEntrySchema.safeExtend({ removedAt: momentSchema.nullable() })),
  approvals: archivedApprovalsSchema.shape.approvals,
  editionsApproved: z.array(
    z.strictObject({ number: z.int(), hash: lineSchema, name: lineSchema, at: momentSchema }),
  ),
  needs: archivedNeedsSchema.shape.needs,
  performances: archivedPerformancesSchema.shape.performances,
  room: archivedRoomSchema.shape.maps,
  trail: archivedTrailSchema.shape.entries,
});

/** programmes.json: what the person drew up for occasions. */
export const programmesSchema = z.strictObject({
  schema: z.literal(1),
  programmes: z.array(
    z.strictObject({
      name: lineSchema,
      on: z.iso.date(),
      startsAt: lineSchema.nullable(),
      place: lineSchema,
      limitSeconds: z.int().nullable(),
      remarks: wordsSchema,
      createdAt: momentSchema,
      removedAt: momentSchema.nullable(),
      items: z.array(
        z.strictObject({
          title: lineSchema,
          plannedSeconds: z.number().nullable(),
          realSeconds: z.number().nullable(),
          gapSeconds: z.int(),
        }),
      ),
    }),
  ),
});

/** Everything of one account, to take along. */
export interface AccountArchive {
  readonly account: Omit<z.infer<typeof accountSchema>, "schema">;
  /** By the name of their files. */
  readonly pieces: ReadonlyMap<string, Omit<WrittenInPiece, "schema">>;
  readonly programmes: z.infer<typeof programmesSchema>["programmes"];
}

export type WrittenInPiece = z.infer<typeof writtenInPieceSchema>;
