import { z } from "zod";

const keptSchema = z.strictObject({ kept: z.int(), of: z.int() });

/** A suggested way of writing a passage. */
const rewriteSchema = z.strictObject({
  /** What is done. */
  words: z.string(),
  /** As printed and as suggested, each hand on its own staff: 50 is where it stops being comfortable. */
  difficultyBefore: z.int(),
  difficultyAfter: z.int(),
  /** What a listener still hears of the print. */
  kept: z.strictObject({
    bass: keptSchema,
    topLine: keptSchema,
    harmony: keptSchema,
    accents: keptSchema,
    rhythm: keptSchema,
    keys: keptSchema,
  }),
  losesGraceNotes: z.boolean(),
});

const passageSchema = z.strictObject({
  fromBar: z.int().min(0),
  toBar: z.int().min(0),
  fromLabel: z.string(),
  toLabel: z.string(),
  /** Shared between the hands in the easiest way. */
  verdict: z.enum(["easy", "awkward", "not playable"]),
  difficulty: z.int().min(0).max(100),
  hand: z.enum(["left", "right"]),
  sentence: z.string(),
  isEasyWhenShared: z.boolean(),
  /** Up to which share of the tempo all of it is comfortable, shared in the easiest way; 0 at none. */
  comfortablePace: z.number().min(0),
  rewrites: z.array(rewriteSchema),
});

/** What `inspect FILE --hands` tells: for usual hands, at a share of the tempo. */
export const handsReportSchema = z.strictObject({
  title: z.string().nullable(),
  /** 1 is the tempo as read. */
  pace: z.number().positive(),
  /** Bars in which the pianist plays. */
  playedBars: z.int().min(0),
  awkwardBars: z.int().min(0),
  notPlayableBars: z.int().min(0),
  passages: z.array(passageSchema),
});

export type InspectedHands = z.infer<typeof handsReportSchema>;
export type InspectedPassage = InspectedHands["passages"][number];
