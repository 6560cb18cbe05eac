import type { RestNeed } from "@/lib/edition/rest-need";
import { measureNeed, type RestUnderCuts } from "@/lib/edition/rest-under-cuts";
import type { CutSpan } from "@/lib/score/cut-span";
import { cutRests, readRests } from "@/lib/score/rest-left";
import type { Score } from "@/lib/score/score";
import { type Seconds, seconds } from "@/lib/score/seconds";
import type { TempoMap } from "@/lib/score/tempo-map";
import { sayNeed } from "./say-need";

/**
 * `kept`: enough is left. `short`: the cuts take too much. `short anyway`: too little even without cuts, and no less with
 * them. `released`: the player has let it go, whatever is left. `no rest`: the soloist does not rest there.
 */
export type RestVerdict = "kept" | "short" | "short anyway" | "released" | "no rest";

/** A needed rest, what cuts do to it, and what follows from that. */
export interface CheckedNeed {
  readonly need: RestNeed;
  readonly verdict: RestVerdict;
  /** Figures in both units; `needed` is null in the unit that the need does not use, `shortBy` 0 there. */
  readonly seconds: NeedFigures<Seconds>;
  readonly bars: NeedFigures<number>;
  readonly evidence: RestUnderCuts;
  readonly sentence: string;
}

interface NeedFigures<Amount> {
  readonly before: Amount;
  readonly after: Amount;
  readonly needed: Amount | null;
  readonly shortBy: Amount;
}

function judge({ need, after, before, shortAfter, shortBefore }: RestUnderCuts): RestVerdict {
  if (need.releasedBy !== null) return "released";
  if (!before || !after) return "no rest";
  if (shortAfter === 0) return "kept";
  return shortBefore > 0 && shortAfter <= shortBefore ? "short anyway" : "short";
}

/**
 * What cuts do to each needed rest, in the order given. A rest that is played several times is judged by the time in which
 * least is left of it; one that a cut joins to another rest is as long as both together.
 *
 * @throws RangeError if a need lies outside the piece or asks for no amount, or a cut cannot be made.
 */
export function checkRestNeeds(
  score: Score,
  map: TempoMap,
  cuts: readonly CutSpan[],
  needs: readonly RestNeed[],
): CheckedNeed[] {
  const reading = readRests(score, map);
  const cut = cutRests(reading, cuts);
  return needs.map((need) => {
    const evidence = measureNeed(reading, cut, need);
    const inSeconds = "seconds" in need.needs ? need.needs.seconds : null;
    const inBars = "bars" in need.needs ? need.needs.bars : null;
    const verdict = judge(evidence);
    return {
      need,
      verdict,
      seconds: {
        before: seconds((evidence.before?.milliseconds ?? 0) / 1000),
        after: seconds((evidence.after?.milliseconds ?? 0) / 1000),
        needed: inSeconds === null ? null : seconds(inSeconds),
        shortBy: seconds(inSeconds === null ? 0 : evidence.shortAfter),
      },
      bars: {
        before: evidence.before?.barCount ?? 0,
        after: evidence.after?.barCount ?? 0,
        needed: inBars,
        shortBy: inBars === null ? 0 : evidence.shortAfter,
      },
      evidence,
      sentence: sayNeed(score, evidence, verdict),
    };
  });
}
