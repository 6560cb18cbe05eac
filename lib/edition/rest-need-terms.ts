import { z } from "zod";
import { comparePositions } from "@/lib/score/position";
import { hashSchema } from "./cut-terms";
import { type PositionTerms, positionTermsSchema, toPosition } from "./position-terms";
import type { RestNeed } from "./rest-need";

/** Seconds up to an hour, or whole and half bars. The bounds are ours: far above any rest in a movement. */
const restAmountSchema = z.union([
  z.strictObject({ seconds: z.number().positive().max(3600) }),
  z.strictObject({ bars: z.number().positive().max(500).multipleOf(0.5) }),
]);

/** How long the soloist must be silent here and why, as it is stored and sent. Places of the written order, end exclusive. */
const restNeedFields = {
  /** The source on whose bars it was noted. */
  sourceHash: hashSchema,
  from: positionTermsSchema,
  to: positionTermsSchema,
  needs: restAmountSchema,
  /** One of the usual words (`usualRestReasons`) or words of the player's own. */
  why: z.string().trim().min(1, "Say in a word or two what the rest is for.").max(200),
};

const forward = ({ from, to }: { from: PositionTerms; to: PositionTerms }) =>
  comparePositions(toPosition(from), toPosition(to)) < 0;
const complaint = { message: "A needed rest ends after it begins.", path: ["to"] };

/** As stored: nothing else stands beside the terms. */
export const restNeedTermsSchema = z.strictObject(restNeedFields).refine(forward, complaint);

/** As sent: whatever else comes along is left out. */
export const newRestNeedSchema = z.object(restNeedFields).refine(forward, complaint);

export type RestNeedTerms = z.infer<typeof restNeedTermsSchema>;

/** What a rest is needed for, in the words players use; others are welcome. */
export const usualRestReasons = [
  "breath",
  "lip",
  "mute",
  "instrument change",
  "pitch",
  "rest",
] as const satisfies readonly RestNeed["why"][];

/**
 * A stored need as the analyses take it.
 *
 * @param record `releasedBy` as in `RestNeed`: who has let it go, by id.
 * @throws RangeError if the terms did not pass `restNeedTermsSchema`.
 */
export function toRestNeed(record: {
  readonly id: string;
  readonly terms: RestNeedTerms;
  readonly releasedBy: string | null;
}): RestNeed {
  const { from, to, needs, why } = record.terms;
  return {
    id: record.id,
    from: toPosition(from),
    to: toPosition(to),
    needs,
    why,
    releasedBy: record.releasedBy,
  };
}
