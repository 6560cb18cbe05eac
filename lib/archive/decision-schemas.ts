import { z } from "zod";
import { editionRecordSchema } from "@/lib/edition/archive/archive-schemas";
import { cutReasonsSchema } from "@/lib/edition/cut-reasons";
import { cutTermsSchema, hashSchema } from "@/lib/edition/cut-terms";
import { contentV1Schema, editionContentSchema } from "@/lib/edition/edition-content";
import { restNeedTermsSchema } from "@/lib/edition/rest-need-terms";
import { rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { sectionTimingsSchema } from "@/lib/edition/section-timings";
import {
  lineSchema,
  momentSchema,
  needKeySchema,
  performanceKeySchema,
  personKeySchema,
  proposalKeySchema,
  rewriteKeySchema,
  wordsSchema,
} from "./archive-fields";

/** What every proposal has, whatever was proposed. */
const proposalFields = {
  key: proposalKeySchema,
  /** As on screen, counted apart for cuts and rewrites; a counter-proposal keeps the number of what it replaces. */
  number: z.int().min(1).max(100_000),
  termsHash: hashSchema,
  reason: wordsSchema,
  state: z.enum(["open", "agreed", "declined", "withdrawn", "superseded", "reopened"]),
  proposedBy: personKeySchema,
  createdAt: momentSchema,
  supersedes: proposalKeySchema.nullable(),
  answers: z
    .array(
      z.strictObject({
        by: personKeySchema,
        answer: z.enum(["agree", "decline", "counter", "withdraw", "reopen"]),
        reason: wordsSchema,
        /** The terms it was said to. */
        termsHash: hashSchema,
        at: momentSchema,
      }),
    )
    .max(1_000),
};

/** proposals.json: every cut that was proposed with everything that was said to it, in the order they were put forward. */
export const archivedProposalsSchema = z.strictObject({
  schema: z.literal(1),
  proposals: z
    .array(
      z.strictObject({
        ...proposalFields,
        terms: cutTermsSchema,
        /** What was found to speak for and against it when it was put forward. */
        why: cutReasonsSchema.nullable(),
      }),
    )
    .max(20_000),
});

const sharedSchema = z.enum(["told", "asked"]);

/**
 * rewrites.json: what the pianist told or asked the other player to hear instead of the print, with everything that was done
 * and said to it. Archives of pieces without any have no such file. What somebody kept to themselves is in none.
 */
export const archivedRewritesSchema = z.strictObject({
  schema: z.literal(1),
  /** Their keys are counted together with those of proposals.json. */
  proposals: z.array(z.strictObject({ ...proposalFields, terms: rewriteTermsSchema })).max(20_000),
  /** Every version, in the order in which they were written. */
  rewrites: z
    .array(
      z.strictObject({
        key: rewriteKeySchema,
        number: z.int().min(1).max(100_000),
        by: personKeySchema,
        terms: rewriteTermsSchema,
        termsHash: hashSchema,
        sharing: sharedSchema,
        createdAt: momentSchema,
        /** The version it was made from. */
        replaces: rewriteKeySchema.nullable(),
        /** When another version took its place. */
        replacedAt: momentSchema.nullable(),
        takenOffAt: momentSchema.nullable(),
        /** The last time that the other player was asked about exactly these notes. */
        proposal: proposalKeySchema.nullable(),
        /** Numbers of the editions it went into. */
        editions: z.array(z.int().min(1).max(500)).max(500),
        events: z
          .array(
            z.strictObject({
              by: personKeySchema,
              what: z.enum(["kept", "shared", "replaced", "taken off", "brought back"]),
              sharing: sharedSchema,
              reason: wordsSchema,
              at: momentSchema,
            }),
          )
          .max(10_000),
      }),
    )
    .max(20_000),
});

/** cue-hints.json: the duo's own words on how to sound like an instrument, every wording; no file where there are none. */
export const archivedHintsSchema = z.strictObject({
  schema: z.literal(1),
  hints: z
    .array(
      z.strictObject({
        instrument: lineSchema.min(1),
        text: wordsSchema,
        by: personKeySchema,
        at: momentSchema,
      }),
    )
    .max(20_000),
});

/** approvals.json: who wanted to freeze which content, also what was taken back or overtaken. */
export const archivedApprovalsSchema = z.strictObject({
  schema: z.literal(1),
  approvals: z
    .array(
      z.strictObject({
        by: personKeySchema,
        contentHash: hashSchema,
        /** What that hash stands for; null in those from before this was kept. */
        content: z.union([contentV1Schema, editionContentSchema]).nullable(),
        at: momentSchema,
        endedAt: momentSchema.nullable(),
      }),
    )
    .max(50_000),
});

/** rest-needs.json: what the soloist needs, with everything that was done to it. */
export const archivedNeedsSchema = z.strictObject({
  schema: z.literal(1),
  needs: z
    .array(
      z.strictObject({
        key: needKeySchema,
        terms: restNeedTermsSchema,
        notedBy: personKeySchema,
        createdAt: momentSchema,
        changedAt: momentSchema,
        releasedBy: personKeySchema.nullable(),
        releasedAt: momentSchema.nullable(),
        removedAt: momentSchema.nullable(),
        events: z
          .array(
            z.strictObject({
              by: personKeySchema,
              what: z.enum(["noted", "changed", "released", "held again", "removed", "brought back"]),
              terms: restNeedTermsSchema,
              at: momentSchema,
            }),
          )
          .max(10_000),
      }),
    )
    .max(10_000),
});

/** performances.json: the occasions on which an edition was played, or is going to be. */
export const archivedPerformancesSchema = z.strictObject({
  schema: z.literal(1),
  performances: z
    .array(
      z.strictObject({
        key: performanceKeySchema,
        editionNumber: z.int().min(1).max(500),
        kind: z.enum(["jury", "examination", "competition", "recital", "run-through"]),
        name: lineSchema,
        on: z.iso.date(),
        startsAt: z.string().max(20).nullable(),
        place: lineSchema,
        limitSeconds: z.int().min(0).max(1_000_000).nullable(),
        plannedSeconds: z.number(),
        realSeconds: z.number().nullable(),
        /** Planned and tapped times of its sections; null when nobody tapped. */
        sections: sectionTimingsSchema.nullable(),
        remarks: wordsSchema,
        result: wordsSchema,
        loggedBy: personKeySchema,
        createdAt: momentSchema,
        changedAt: momentSchema,
        removedAt: momentSchema.nullable(),
      }),
    )
    .max(10_000),
});

/** trail.json: what was done, by whom and when, in order. */
export const archivedTrailSchema = z.strictObject({
  schema: z.literal(1),
  entries: z
    .array(
      z.strictObject({
        at: momentSchema,
        by: personKeySchema.nullable(),
        what: lineSchema,
        about: z.record(z.string().max(300), z.json()),
      }),
    )
    .max(200_000),
});

/** editions/N/record.json: as in an exported edition, with the keys of this archive. */
export const pieceEditionSchema = editionRecordSchema.extend({
  approvals: z.array(editionRecordSchema.shape.approvals.element.extend({ by: personKeySchema })).max(50),
  /** Those that went into it. */
  proposals: z.array(proposalKeySchema).max(20_000),
  /** Of the engraver it was frozen under; null when that was not kept. */
  rendererVersion: z.string().max(200).nullable(),
});

export type ArchivedProposal = z.infer<typeof archivedProposalsSchema>["proposals"][number];
export type ArchivedRewriteProposal = z.infer<typeof archivedRewritesSchema>["proposals"][number];
export type ArchivedRewrite = z.infer<typeof archivedRewritesSchema>["rewrites"][number];
export type ArchivedHint = z.infer<typeof archivedHintsSchema>["hints"][number];
export type ArchivedApproval = z.infer<typeof archivedApprovalsSchema>["approvals"][number];
export type ArchivedNeed = z.infer<typeof archivedNeedsSchema>["needs"][number];
export type ArchivedPerformance = z.infer<typeof archivedPerformancesSchema>["performances"][number];
export type ArchivedTrailEntry = z.infer<typeof archivedTrailSchema>["entries"][number];
export type PieceEditionRecord = z.infer<typeof pieceEditionSchema>;
