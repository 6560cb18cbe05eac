import { z } from "zod";
import { readEnds, writeEnds } from "../../_cuts/ends-in-address";
import { mostLastBars, mostListed, noWishes, type PlanState, type SetChoice, type Wishes } from "./wishes";

const isOn = z.literal("1").transform(() => true);
const ends = z
  .string()
  .max(4000)
  .transform((text) => readEnds(text).slice(0, mostListed));

/** What an address can say. Whatever it says wrongly is as if it were not there. */
const addressSchema = z.object({
  by: z.literal("beats").optional().catch(undefined),
  last: z.coerce.number().int().min(1).max(mostLastBars).optional().catch(undefined),
  marks: z
    .string()
    .max(400)
    .transform((text) => text.split(",").filter((mark) => mark !== ""))
    .optional()
    .catch(undefined),
  themes: isOn.optional().catch(undefined),
  rough: isOn.optional().catch(undefined),
  counts: z.enum(["fewer", "shorter"]).optional().catch(undefined),
  careful: isOn.optional().catch(undefined),
  out: ends.optional().catch(undefined),
  keep: ends.optional().catch(undefined),
  saves: z.coerce.number().min(0).max(36_000).optional().catch(undefined),
  other: z.coerce.number().int().min(1).max(20).optional().catch(undefined),
});

function choiceOf({ saves, other }: z.infer<typeof addressSchema>): SetChoice {
  if (other !== undefined) return { kind: "other", index: other - 1 };
  return saves === undefined ? { kind: "best" } : { kind: "length", saves };
}

/** The state that an address stands for. */
export function readPlanAddress(query: Pick<URLSearchParams, "get">): PlanState {
  const said = Object.keys(addressSchema.shape).map((name) => [name, query.get(name) ?? undefined]);
  const read = addressSchema.parse(Object.fromEntries(said));
  const wishes: Wishes = {
    resolution: read.by ?? noWishes.resolution,
    keepLastBars: read.last ?? noWishes.keepLastBars,
    keepRehearsal: read.marks ?? noWishes.keepRehearsal,
    keepTheme: read.themes ?? noWishes.keepTheme,
    allowsRough: read.rough ?? noWishes.allowsRough,
    counts: read.counts ?? noWishes.counts,
    isCareful: read.careful ?? noWishes.isCareful,
    leftOut: read.out ?? noWishes.leftOut,
    kept: read.keep ?? noWishes.kept,
  };
  return { wishes, choice: choiceOf(read) };
}

/** The part of the address after the question mark; empty where nothing was wished for. */
export function writePlanAddress({ wishes, choice }: PlanState): string {
  const said: Record<string, string | false> = {
    by: wishes.resolution === "beats" && "beats",
    last: wishes.keepLastBars !== null && `${wishes.keepLastBars}`,
    marks: wishes.keepRehearsal.length > 0 && wishes.keepRehearsal.join(","),
    themes: wishes.keepTheme && "1",
    rough: wishes.allowsRough && "1",
    counts: wishes.counts !== "joins" && wishes.counts,
    careful: wishes.isCareful && "1",
    out: wishes.leftOut.length > 0 && writeEnds(wishes.leftOut),
    keep: wishes.kept.length > 0 && writeEnds(wishes.kept),
    saves: choice.kind === "length" && choice.saves.toFixed(3),
    other: choice.kind === "other" && `${choice.index + 1}`,
  };
  const query = new URLSearchParams();
  for (const [name, value] of Object.entries(said)) if (value !== false) query.set(name, value);
  return query.toString();
}
