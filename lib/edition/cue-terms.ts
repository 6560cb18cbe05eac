import { z } from "zod";
import { positionTermsSchema } from "./position-terms";

/** Longer than any list of instruments that is written over a staff. */
export const longestCue = 24;

/** The shorthand above the reduction of the instrument that has the line from here: "Fl.", "Ob. solo", "Cor.". */
export const cueTermsSchema = z.strictObject({
  at: positionTermsSchema,
  text: z.string().trim().min(1).max(longestCue),
});

export type CueTerms = z.infer<typeof cueTermsSchema>;
