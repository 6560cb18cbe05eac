import { z } from "zod";
import { barBoxSchema } from "@/lib/engrave/picture/bar-box";

const systemSchema = z.object({
  index: z.int().min(0),
  width: z.number().positive(),
  height: z.number().positive(),
  firstBarIndex: z.int().min(0),
  lastBarIndex: z.int().min(0),
  bars: z.array(barBoxSchema),
});

/** The answer of the engraving route when it is done. */
export const engravingSchema = z.object({ key: z.string().min(1), systems: z.array(systemSchema) });

/** The answer while it works: from 0 to 1. */
export const progressSchema = z.object({ progress: z.number().min(0).max(1) });

/** Where one bar stands in its system, in the units of that system's drawing, top down. */
export type BarBox = z.infer<typeof barBoxSchema>;

/** One line of the score, without its drawing. */
export type EngravedSystem = z.infer<typeof systemSchema>;

export type Engraving = z.infer<typeof engravingSchema>;

/** For which page an engraving is laid out. */
export type EngravingLayout = "desk" | "tablet" | "phone";

export function layoutFor(widthPixels: number): EngravingLayout {
  if (widthPixels < 520) return "phone";
  return widthPixels < 860 ? "tablet" : "desk";
}
