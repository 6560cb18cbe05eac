import { z } from "zod";
import type { TempoSettings } from "@/lib/score/tempo-map";
import { positionTermsSchema, toPosition } from "./position-terms";

/** What the duo decided about time, as it is stored, hashed and sent. Null: the documented default of the tempo map. */
export const tempoTermsSchema = z.strictObject({
  /** The duo's own tempi; each holds until the next mark. */
  tempi: z
    .array(z.strictObject({ at: positionTermsSchema, quartersPerMinute: z.number().min(5).max(600) }))
    .max(500),
  /** Tempo at the end of a ritardando as a part of the tempo before it. */
  ritardandoTo: z.number().min(0.2).max(1).nullable(),
  /** How many times its written length a fermata is held. */
  fermataFactor: z.number().min(1).max(8).nullable(),
  /** The duo's own timing of a section, from a rehearsal. */
  timings: z
    .array(
      z.strictObject({
        from: positionTermsSchema,
        to: positionTermsSchema,
        seconds: z.number().positive().max(36_000),
      }),
    )
    .max(500),
});

export type TempoTerms = z.infer<typeof tempoTermsSchema>;

/** As printed, with every default. */
export const printedTempo: TempoTerms = { tempi: [], ritardandoTo: null, fermataFactor: null, timings: [] };

/** @throws RangeError if `terms` did not pass `tempoTermsSchema`. */
export function toTempoSettings(terms: TempoTerms): TempoSettings {
  return {
    tempi: terms.tempi.map(({ at, quartersPerMinute }) => ({ at: toPosition(at), quartersPerMinute })),
    timings: terms.timings.map(({ from, to, seconds }) => ({
      from: toPosition(from),
      to: toPosition(to),
      seconds,
    })),
    ...(terms.ritardandoTo === null ? {} : { ritardandoTo: terms.ritardandoTo }),
    ...(terms.fermataFactor === null ? {} : { fermataFactor: terms.fermataFactor }),
  };
}
