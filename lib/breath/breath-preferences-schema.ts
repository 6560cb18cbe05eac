import { z } from "zod";
import type { BreathPreferences } from "./breath-preferences";

/**
 * A soloist's own numbers as they are stored and sent. The bounds are ours: no breath lasts two minutes, and no window
 * is longer than a long movement.
 */
export const breathPreferencesSchema = z.strictObject({
  comfortableSeconds: z.number().positive().max(120).nullable(),
  catchSeconds: z.number().min(0).max(10),
  restPerPlayed: z.number().min(0).max(20).nullable(),
  windowSeconds: z.number().min(5).max(1800),
}) satisfies z.ZodType<BreathPreferences>;
