import { z } from "zod";
import { cleanText } from "../clean-text";

/** What a person writes beside a decision. */
export const reasonSchema = z
  .string()
  .max(2000, "A reason has at most 2,000 letters here.")
  .transform(cleanText);
