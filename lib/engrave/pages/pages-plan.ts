import { z } from "zod";

const barSchema = z.object({ id: z.string(), label: z.string(), sourceIndex: z.int() });

const handSchema = z.object({
  hand: z.enum(["right hand", "left hand", "both hands", "player"]),
  freeBefore: z.number(),
  freeAfter: z.number(),
  freeSeconds: z.number(),
});

const turnSchema = z.object({
  barLabel: z.string(),
  freeSeconds: z.number().nullable(),
  grade: z.enum(["easy", "quick", "bad"]),
  sign: z.enum(["V.S.", "time"]).nullable(),
  sentence: z.string(),
  /** Each time that the page is turned. */
  moments: z.array(
    z.object({ atSeconds: z.number(), direction: z.enum(["on", "back"]), hands: z.array(handSchema) }),
  ),
});

/** The pages of an edition as they will be printed, without pictures. Sizes in points. */
export const pagesPlanSchema = z.object({
  /** Changes when anything on the pages does. */
  key: z.string(),
  width: z.number().positive(),
  height: z.number().positive(),
  bars: z.array(barSchema),
  pages: z.array(
    z.object({
      number: z.int(),
      turn: turnSchema.nullable(),
      systems: z.array(z.object({ firstBar: barSchema, lastBar: barSchema })),
    }),
  ),
  /** Bars that begin a page because a player decided so; `label` is null for one that is not printed. */
  pins: z.array(
    z.object({ barIndex: z.int(), label: z.string().nullable(), pinnedBy: z.string(), at: z.iso.datetime() }),
  ),
});

export type PagesPlan = Readonly<z.infer<typeof pagesPlanSchema>>;
export type PlannedPage = PagesPlan["pages"][number];
