import { z } from "zod";
import { positionTermsSchema } from "./position-terms";

/** In UTF-16 code units: more than fits between two staves, and never what keeps a word from being printed. */
export const longestRemark = 2000;

/** A comment that its author wants printed at its bars. */
export const remarkTermsSchema = z.strictObject({
  from: positionTermsSchema,
  to: positionTermsSchema,
  text: z.string().trim().min(1).max(longestRemark),
  /** The author's name when it was frozen. */
  by: z.string().min(1).max(200),
});

export type RemarkTerms = z.infer<typeof remarkTermsSchema>;
