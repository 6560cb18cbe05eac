import { z } from "zod";

/** Widths for which a score is engraved. */
export const screenLayouts = ["desk", "tablet", "phone"] as const;
export type ScreenLayout = (typeof screenLayouts)[number];

/** As printed, cuts drawn over it; with the agreed cuts carried out; or the solo part alone, its rests gathered. */
export const engravingViews = ["open", "as-it-will-read", "solo"] as const;
export type EngravingView = (typeof engravingViews)[number];

const staffSchema = z.object({ top: z.number(), bottom: z.number() });

/** One system and where its bars and staves lie, in the units of its own picture's view box. */
export const systemSummarySchema = z.object({
  index: z.int(),
  width: z.number(),
  height: z.number(),
  firstBarIndex: z.int(),
  lastBarIndex: z.int(),
  bars: z.array(
    z.object({
      barIndex: z.int(),
      x: z.number(),
      width: z.number(),
      top: z.number(),
      bottom: z.number(),
      staves: z.array(staffSchema),
    }),
  ),
});

export type SystemSummary = z.infer<typeof systemSummarySchema>;

/** An engraved score without its pictures; each is fetched by the key and the system's index. */
export interface EngravingSummary {
  readonly key: string;
  readonly rendererVersion: string;
  readonly systems: readonly SystemSummary[];
}
