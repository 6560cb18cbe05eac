import type { RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";

/** What the piano of `duoSource` has in every bar: one whole note in each hand. */
const hands = [
  { staff: 1, voice: 1, octave: 4 },
  { staff: 2, voice: 5, octave: 3 },
] as const;

/** Some bars of 4/4, by index, in which the right hand holds another step than C. */
export function buildRewrite(
  sourceHash: string,
  from: number,
  to = from,
  step: RewritePitch["step"] = "E",
): RewriteTerms {
  const events = Array.from({ length: to - from + 1 }, (_, index) =>
    hands.map(({ staff, voice, octave }) => ({
      ...{ at: { barIndex: from + index, offset: "0" }, lasts: "4", staff, voice },
      pitches: [{ step: staff === 1 ? step : ("C" as const), alter: 0, octave }],
      ...{ tied: [], tremolo: null, isRolled: false, isAccented: false },
    })),
  ).flat();
  return {
    ...{ kind: "rewrite", sourceHash, partId: "P2", shown: "ossia", words: "another step" },
    ...{ from: { barIndex: from, offset: "0" }, to: { barIndex: to, offset: "4" }, events },
  };
}
