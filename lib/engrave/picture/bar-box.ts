import { z } from "zod";

/** Where one bar stands in its system, in the units of that system's drawing, top down. */
export const barBoxSchema = z.object({
  barIndex: z.int().min(0),
  x: z.number(),
  width: z.number().min(0),
  top: z.number(),
  bottom: z.number(),
  /** Outer lines of each staff, from the top. */
  staves: z.array(z.object({ top: z.number(), bottom: z.number() })),
});
