import { z } from "zod";
import { barBoxSchema } from "../picture/bar-box";

const placed = { barIndex: z.int().min(0), offset: z.string() };

/** A note in the picture: `id` is that of its `g.note`. Several stand for one that ties or strokes divide. */
const drawnNoteSchema = z.object({
  id: z.string(),
  ...placed,
  staff: z.int().min(1),
  /** As the engraved music names it; a rewrite's voices keep their numbers. */
  voice: z.string(),
  step: z.enum(["C", "D", "E", "F", "G", "A", "B"]),
  alter: z.number(),
  octave: z.int(),
  /** It stands on the small staff over the print. */
  isOssia: z.boolean(),
});

const drawnRestSchema = z.object({
  id: z.string(),
  ...placed,
  staff: z.int().min(1),
  voice: z.string(),
  isOssia: z.boolean(),
});

const systemSchema = z.object({
  width: z.number().positive(),
  height: z.number().positive(),
  bars: z.array(barBoxSchema),
  /** Inert: see `EngravedSystem`. */
  svg: z.string(),
});

/** Some bars of the reduction as pictures, one system each, with the places of all that is in them. */
export const drawnPassageSchema = z.object({
  systems: z.array(systemSchema),
  notes: z.array(drawnNoteSchema),
  rests: z.array(drawnRestSchema),
  /** What holds where the passage begins, and changes in it; `staff` null for all staves. */
  clefs: z.array(
    z.object({
      ...placed,
      staff: z.int().min(1),
      sign: z.string(),
      line: z.int().nullable(),
      octaveChange: z.int(),
    }),
  ),
  keys: z.array(z.object({ ...placed, staff: z.int().min(1).nullable(), fifths: z.int().nullable() })),
  bars: z.array(
    z.object({ barIndex: z.int().min(0), label: z.string(), length: z.string(), beat: z.string() }),
  ),
  staffCount: z.int().min(1),
});

export type DrawnPassage = z.infer<typeof drawnPassageSchema>;
