import { z } from "zod";

/** Semitones from the fifth finger to the thumb that one hand strikes together and holds. */
const reachSchema = z
  .strictObject({
    /** Without thinking of it. */
    comfortable: z.int().min(5, "A hand reaches at least a fourth.").max(24),
    /** At the edges of the keys, when it must be. */
    possible: z.int().min(5).max(24, "No hand reaches more than two octaves."),
  })
  .refine(({ comfortable, possible }) => comfortable <= possible, {
    message: "What is comfortable is not wider than what is possible.",
    path: ["comfortable"],
  });

const perSecond = z.number().min(1).max(20);

/** A grand piano's action repeats up to so many times a second. Source: what makers of grand pianos state. */
export const actionStrokes = 14;
const perSecondOnOneKey = z
  .number()
  .min(1)
  .max(actionStrokes, `No piano repeats faster than ${actionStrokes} times a second.`);

/** What lies well under one pianist's hands, by their own word. It is theirs alone: nobody else is shown it. */
export const handsProfileSchema = z.strictObject({
  schema: z.literal(1),
  left: reachSchema,
  right: reachSchema,
  /** The same key struck again by one hand, strokes a second, for some bars. */
  repeatedNotes: perSecondOnOneKey,
  /** The same chord or octave again. */
  repeatedChords: perSecondOnOneKey,
  /** Octaves and chords that move. */
  octavesInARow: perSecond,
  /** Single notes of a run in one hand. */
  runs: perSecond,
  /** How long a leap takes, against the usual: 1 is usual, 0.8 is quick, 1.3 takes care. */
  leaps: z.number().min(0.5).max(2),
});

export type HandsProfile = z.infer<typeof handsProfileSchema>;
export type Reach = HandsProfile["left"];
export type HandName = "left" | "right";

/**
 * Where a pianist who has not said anything starts: a ninth with ease, a tenth when it must be.
 * Rates: repeated chords from 4 to 5 a second and octaves from 4 a second on ask for something else, single notes from 6
 * (common practice); ours are the upper ends, because a place that is called awkward must be so.
 */
export const usualHands: HandsProfile = {
  schema: 1,
  left: { comfortable: 14, possible: 16 },
  right: { comfortable: 14, possible: 16 },
  repeatedNotes: 7,
  repeatedChords: 6,
  octavesInARow: 5,
  runs: 11,
  leaps: 1,
};
