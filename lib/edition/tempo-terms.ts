import { z } from "zod";
import { comparePositions } from "@/lib/score/position";
import { defaultTempoSettings, type TempoSettings } from "@/lib/score/tempo-settings";
import { type PositionTerms, positionTermsSchema, toPosition } from "./position-terms";

/**
 * What the duo decided about time, as it is stored, hashed and sent. The allowances stand in it as numbers, so that
 * an edition keeps its running time should a default ever change.
 */
export const tempoTermsSchema = z.strictObject({
  /** The duo's own tempi; each holds until the next mark. */
  tempi: z
    .array(z.strictObject({ at: positionTermsSchema, quartersPerMinute: z.number().min(5).max(600) }))
    .max(500),
  /** Tempo at the end of a ritardando as a part of the tempo before it. */
  ritardandoTo: z.number().min(0.2).max(1),
  /** How many times its written length a fermata is held. */
  fermataFactor: z.number().min(1).max(8),
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

/** As printed, with the default allowances. */
export const printedTempo: TempoTerms = {
  tempi: [],
  ritardandoTo: defaultTempoSettings.ritardandoTo,
  fermataFactor: defaultTempoSettings.fermataFactor,
  timings: [],
};

/** The same decisions in the order of the page, so that they have one hash. */
export function sortTempoTerms(terms: TempoTerms): TempoTerms {
  const byPlace = (a: PositionTerms, b: PositionTerms) => comparePositions(toPosition(a), toPosition(b));
  return {
    ...terms,
    tempi: terms.tempi.toSorted((a, b) => byPlace(a.at, b.at)),
    timings: terms.timings.toSorted((a, b) => byPlace(a.from, b.from) || byPlace(a.to, b.to)),
  };
}

/** @throws RangeError if `terms` did not pass `tempoTermsSchema`. */
export function toTempoSettings(terms: TempoTerms): TempoSettings {
  return {
    tempi: terms.tempi.map(({ at, quartersPerMinute }) => ({ at: toPosition(at), quartersPerMinute })),
    timings: terms.timings.map(({ from, to, seconds }) => ({
      from: toPosition(from),
      to: toPosition(to),
      seconds,
    })),
    ritardandoTo: terms.ritardandoTo,
    fermataFactor: terms.fermataFactor,
  };
}
