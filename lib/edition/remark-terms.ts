import { z } from "zod";
import { positionTermsSchema } from "./position-terms";

/** A comment that its author wants printed at its bars. */
export const remarkTermsSchema = z.strictObject({
  from: positionTermsSchema,
  to: positionTermsSchema,
  text: z.string().trim().min(1).max(2000),
  /** The author's name when it was frozen. */
  by: z.string().min(1).max(200),
});

export type RemarkTerms = z.infer<typeof remarkTermsSchema>;
