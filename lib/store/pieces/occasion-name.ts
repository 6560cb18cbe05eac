import { z } from "zod";
import { cleanLine } from "../clean-text";

const tooLong = "The name of an occasion has at most 40 letters here.";

/** What a piece is prepared for, beside others of the same music: "Jury", "Recital". One line. */
export const occasionNameSchema = z
  .string("Say what the occasion is called.")
  .max(400, tooLong)
  .transform(cleanLine)
  .pipe(z.string().min(1, "Say what the occasion is called.").max(40, tooLong));

/** The title of a piece with its occasion, where both must stand in one line: "Concertino, for the Recital". */
export function titleWithOccasion(title: string, occasion: string | null): string {
  return occasion === null ? title : `${title} (${occasion})`;
}

/** Whether two names would be taken for the same. */
export function isSameOccasion(a: string, b: string): boolean {
  return a.localeCompare(b, undefined, { sensitivity: "base" }) === 0;
}
