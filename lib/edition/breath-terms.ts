import { z } from "zod";
import { positionTermsSchema } from "./position-terms";

/** A breath of the solo part as an edition keeps it: the comma stands before what begins here. */
export const breathTermsSchema = z.strictObject({ at: positionTermsSchema });

export type BreathTerms = z.infer<typeof breathTermsSchema>;
