import { z } from "zod";
import { positionTermsSchema } from "./position-terms";

/**
 * Why a cut was put forward, as it was found then: kept with the proposal, so that the other player sees what whoever
 * proposed it saw. Found by the server, never taken from a client.
 */
export const cutReasonsSchema = z.strictObject({
  /** Of this shape. */
  schema: z.literal(1),
  /** How the join will be heard; the worst of what was looked at. */
  grade: z.enum(["clean", "needs a touch", "rough"]),
  /** In musicians' words, the most telling first. */
  sentences: z.array(z.string().max(300)).max(12),
  /** By which the performance becomes shorter beside the cuts agreed then, repeats counted. */
  savedSeconds: z.number(),
  /** The set that it was put forward in; null for a cut of its own. */
  plan: z
    .strictObject({
      sentence: z.string().max(600),
      /** The time limit that was planned for, in seconds; null when there was none. */
      limitSeconds: z.number().nullable(),
      /** With the whole set and the cuts agreed then. */
      runsSeconds: z.number(),
      /** The whole set. */
      cuts: z.array(z.strictObject({ from: positionTermsSchema, to: positionTermsSchema })).max(24),
    })
    .nullable(),
});

export type CutReasons = z.infer<typeof cutReasonsSchema>;
export type CutPlanReasons = NonNullable<CutReasons["plan"]>;
