import { z } from "zod";
import { readQuarters, writeQuarters } from "@/lib/score/quarters";
import { hashSchema } from "./cut-terms";
import { positionTermsSchema } from "./position-terms";

const lengthSchema = z
  .string()
  .max(33)
  .regex(/^[1-9]\d*(\/\d+)?$/)
  .refine((text) => {
    const length = readQuarters(text);
    return length !== null && writeQuarters(length) === text;
  }, "A length is a reduced fraction of quarter notes, such as 3/2.");

/** As in MusicXML: step, alteration in semitones, octave with c4 as middle C. */
const pitchTermsSchema = z.strictObject({
  step: z.enum(["C", "D", "E", "F", "G", "A", "B"]),
  alter: z.int().min(-2).max(2),
  octave: z.int().min(0).max(9),
});

/** What sounds from one place for one length in one voice: a note, a chord, a tremolo of two, or a rest. */
const rewriteEventSchema = z.strictObject({
  at: positionTermsSchema,
  /** In quarter notes; it ends within its bar. */
  lasts: lengthSchema,
  staff: z.int().min(1).max(4),
  voice: z.int().min(1).max(8),
  /** From the lowest up; none is a rest. */
  pitches: z.array(pitchTermsSchema).max(10),
  /** Pitches that are tied on to the next event of the voice, by their place in `pitches`. */
  tied: z.array(z.int().min(0).max(9)).max(10),
  /**
   * Strokes through the stem (1: eighths, 2: sixteenths, 3: thirty-seconds or unmeasured). With pitches in `other` it
   * goes to and fro between the two; the event's whole length is that of both together.
   */
  tremolo: z
    .strictObject({ strokes: z.int().min(1).max(4), other: z.array(pitchTermsSchema).max(10) })
    .nullable(),
  /** The chord is broken from the lowest note up. */
  isRolled: z.boolean(),
  isAccented: z.boolean(),
});

/** Instead of what is printed in these bars of one part, the pianist plays this. The span and its length stay exactly. */
export const rewriteTermsSchema = z.strictObject({
  kind: z.literal("rewrite"),
  sourceHash: hashSchema,
  /** The part of the source that it changes. */
  partId: z.string().min(1).max(200),
  from: positionTermsSchema,
  to: positionTermsSchema,
  /** By staff, voice and place. Every voice of the span that the part has is written whole. */
  events: z.array(rewriteEventSchema).max(4000),
  /** Over the printed bars on a staff of its own, or instead of them. */
  shown: z.enum(["ossia", "in place"]),
  /** What was done, in a musician's words: "tremolo for the repeated octaves". */
  words: z.string().trim().max(200),
});

export type RewriteTerms = z.infer<typeof rewriteTermsSchema>;
export type RewriteEvent = RewriteTerms["events"][number];
export type RewritePitch = RewriteEvent["pitches"][number];
