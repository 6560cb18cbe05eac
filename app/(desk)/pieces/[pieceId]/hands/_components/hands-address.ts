import { z } from "zod";
import type { Bars } from "./passage-state";

/** The slowest and the fastest that the slider goes, as shares of the duo's tempo. Ours. */
export const paces = { slowest: 0.4, fastest: 1.25 };

/** What the reader of the hands screen looks at. */
export interface HandsPlace {
  /** The passage in front; null for the first that is open. */
  readonly bars: Bars | null;
  /** The rewrite in front, wherever it lies. */
  readonly rewriteId: string | null;
  /** Share of the duo's tempo. */
  readonly pace: number;
}

const barsSchema = z
  .string()
  .regex(/^\d{1,6}-\d{1,6}$/)
  .transform((text): Bars => {
    const [fromBar = 0, toBar = 0] = text.split("-").map(Number);
    return { fromBar, toBar };
  })
  .refine(({ fromBar, toBar }) => fromBar <= toBar);

/** What an address can say. Whatever it says wrongly is as if it were not there. */
const addressSchema = z.object({
  bars: barsSchema.optional().catch(undefined),
  rewrite: z.string().min(1).max(100).optional().catch(undefined),
  tempo: z.coerce
    .number()
    .min(100 * paces.slowest)
    .max(100 * paces.fastest)
    .optional()
    .catch(undefined),
});

/** The place that an address stands for: bars by index, tempo in percent of the duo's. */
export function readHandsAddress(query: Pick<URLSearchParams, "get">): HandsPlace {
  const said = Object.keys(addressSchema.shape).map((name) => [name, query.get(name) ?? undefined]);
  const read = addressSchema.parse(Object.fromEntries(said));
  return { bars: read.bars ?? null, rewriteId: read.rewrite ?? null, pace: (read.tempo ?? 100) / 100 };
}

/** The part of the address after the question mark; empty at the start. */
export function writeHandsAddress({ bars, rewriteId, pace }: HandsPlace): string {
  const query = new URLSearchParams();
  if (rewriteId !== null) query.set("rewrite", rewriteId);
  else if (bars) query.set("bars", `${bars.fromBar}-${bars.toBar}`);
  if (pace !== 1) query.set("tempo", `${Math.round(pace * 1000) / 10}`);
  return query.toString();
}
