import { z } from "zod";
import type { Position } from "@/lib/score/position";
import { compareQuarters, noQuarters, readQuarters, writeQuarters } from "@/lib/score/quarters";

/** Bars of the longest source that is accepted, far above any printed movement. */
const mostBars = 100_000;

const offsetRule = "An offset is a reduced fraction such as 3/2, from 0 up.";

/**
 * A position as it is stored, hashed and sent: the offset as written by `writeQuarters`, reduced, so that one
 * place has one spelling and one hash.
 */
export const positionTermsSchema = z.strictObject({
  barIndex: z.int().min(0).max(mostBars),
  offset: z
    .string()
    .max(33)
    .regex(/^\d+(\/\d+)?$/, offsetRule)
    .refine(isWrittenOffset, offsetRule),
});

export type PositionTerms = z.infer<typeof positionTermsSchema>;

function isWrittenOffset(text: string): boolean {
  const offset = readQuarters(text);
  return offset !== null && compareQuarters(offset, noQuarters) >= 0 && writeQuarters(offset) === text;
}

export function toPositionTerms(position: Position): PositionTerms {
  return { barIndex: position.barIndex, offset: writeQuarters(position.offset) };
}

/** @throws RangeError if `terms` did not pass `positionTermsSchema`. */
export function toPosition(terms: PositionTerms): Position {
  const offset = readQuarters(terms.offset);
  if (offset === null) throw new RangeError(`Not an offset in quarter notes: ${terms.offset}`);
  return { barIndex: terms.barIndex, offset };
}
