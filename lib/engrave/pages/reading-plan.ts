import { z } from "zod";

const textSchema = z.object({
  kind: z.literal("text"),
  text: z.string(),
  x: z.number(),
  y: z.number(),
  style: z.object({
    face: z.string(),
    size: z.number(),
    align: z.enum(["left", "center", "right"]).optional(),
    grey: z.number().optional(),
  }),
});

const ruleSchema = z.object({
  kind: z.literal("rule"),
  x1: z.number(),
  x2: z.number(),
  y: z.number(),
  thickness: z.number(),
});

const wordsSchema = z.object({
  tag: z.enum(["H1", "P", "ornament"]),
  items: z.array(z.discriminatedUnion("kind", [textSchema, ruleSchema])),
});

const pageSchema = z.object({
  /** From 1. */
  number: z.int(),
  /** What is printed over the music and under it. */
  words: z.array(wordsSchema),
  systems: z.array(
    z.object({
      /** Under which its picture is fetched. */
      index: z.int(),
      x: z.number(),
      y: z.number(),
      width: z.number(),
      height: z.number(),
      /** "Bars 12 to 17". */
      alt: z.string(),
      /** Place of its first bar among the bars that are printed, the same for every reader of an edition. */
      firstBarIndex: z.int(),
    }),
  ),
  /** What turning the page asks of the reader; null for the last. */
  turn: z.object({ sign: z.enum(["V.S.", "time"]).nullable(), sentence: z.string() }).nullable(),
});

/** An edition on the pages of a tablet, without its pictures. Lengths in points. */
export const readingPlanSchema = z.object({
  width: z.number().positive(),
  height: z.number().positive(),
  pages: z.array(pageSchema),
});

export type ReadingPlan = z.infer<typeof readingPlanSchema>;

/** What a reader is sent: the plan, and the key under which its pictures are fetched. */
export const readingSchema = readingPlanSchema.extend({ key: z.string().min(1) });

export type Reading = z.infer<typeof readingSchema>;
export type ReadingPage = Reading["pages"][number];

/** Whose pages: the solo part small over the reduction, or the soloist's own. */
export const readingFor = ["pianist", "soloist"] as const;
export type ReadingFor = (typeof readingFor)[number];
