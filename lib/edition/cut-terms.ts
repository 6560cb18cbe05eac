import { z } from "zod";
import type { CutSpan } from "@/lib/score/cut-span";
import { positionTermsSchema, toPosition, toPositionTerms } from "./position-terms";

/** SHA-256 in lower-case hexadecimal. */
export const hashSchema = z.string().regex(/^[0-9a-f]{64}$/);

/**
 * What two players agree to when they agree to a cut: exactly these two places in exactly this source.
 * Play up to `from`, go on at `to`.
 */
export const cutTermsSchema = z.strictObject({
  kind: z.literal("cut"),
  sourceHash: hashSchema,
  from: positionTermsSchema,
  to: positionTermsSchema,
});

export type CutTerms = z.infer<typeof cutTermsSchema>;

export function toCutTerms(span: CutSpan, sourceHash: string): CutTerms {
  return { kind: "cut", sourceHash, from: toPositionTerms(span.from), to: toPositionTerms(span.to) };
}

/** @throws RangeError if `terms` did not pass `cutTermsSchema`. */
export function toCutSpan(terms: Pick<CutTerms, "from" | "to">): CutSpan {
  return { from: toPosition(terms.from), to: toPosition(terms.to) };
}
