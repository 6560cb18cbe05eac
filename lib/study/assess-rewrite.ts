import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import { difficultyOf } from "@/lib/hands/at-tempo";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import { sayStrain } from "@/lib/hands/say-strain";
import type { Strain } from "@/lib/hands/strain";
import type { BarEvent } from "@/lib/rewrites/bar-event";
import { barSpanOf, barsOfTerms } from "@/lib/rewrites/bars-of-terms";
import { addFidelity, beatsOf, compareBar, type Fidelity, wholeFidelity } from "@/lib/rewrites/fidelity";
import { hasGraceNotes, readBarEvents } from "@/lib/rewrites/read-bar-events";
import { beatOf } from "@/lib/score/beat-of";
import type { Part } from "@/lib/score/part";
import type { Score } from "@/lib/score/score";
import type { TempoMap } from "@/lib/score/tempo-map";
import { judgeUnder } from "./judge-rewrite";

export interface RewriteToAssess {
  readonly terms: RewriteTerms;
  readonly hands: HandsProfile;
  /** Share of the tempo that was read. */
  readonly pace: number;
}

/** What a rewrite does for these hands, and what a listener still hears of the print. */
export interface AssessedRewrite {
  /** 0 to 100; 50 where it stops being comfortable for this pianist. Each hand plays its own staff. */
  readonly difficultyBefore: number;
  readonly difficultyAfter: number;
  /** What still strains, heaviest first, each kind and hand once, in sentences; only what is more than comfortable. */
  readonly reasons: readonly string[];
  readonly fidelity: Fidelity;
  readonly isWithinReach: boolean;
  /** Grace notes of the passage are not kept. */
  readonly losesGraceNotes: boolean;
}

/** From this load on a bar is no longer comfortable: see `lib/hands`. */
const comfortable = 1;
const rounding = 1e-9;

/**
 * Judges a rewrite as it stands, whoever wrote it. The bar before the rewrite is as it is printed.
 *
 * @throws RangeError if the score lacks its part or its bars, or the pace is not positive.
 */
export function assessRewrite(
  { score, map }: { readonly score: Score; readonly map: TempoMap },
  { terms, hands, pace }: RewriteToAssess,
): AssessedRewrite {
  const part = score.parts.find(({ id }) => id === terms.partId);
  if (!part) throw new RangeError(`The score has no part ${terms.partId}`);
  const { fromBar, toBar } = barSpanOf(terms);
  const judge = judgeUnder(score, map, part, hands, pace);
  const written = barsOfTerms(terms);
  const printed = written.map((_, index) => readBarEvents(score, part, fromBar + index));
  const judgeAll = (bars: readonly (readonly BarEvent[])[]) =>
    bars.map((events, index) => judge(fromBar + index, bars[index - 1] ?? null, events));
  const [before, after] = [judgeAll(printed), judgeAll(written)];
  return {
    difficultyBefore: hardest(before),
    difficultyAfter: hardest(after),
    reasons: sayReasons(after.flatMap(({ strains }) => strains)),
    fidelity: compareBars(score, fromBar, printed, written),
    isWithinReach: after.every(({ isWithinReach }) => isWithinReach),
    losesGraceNotes: losesGraceNotes(part, fromBar, toBar),
  };
}

const hardest = (bars: readonly { readonly load: number }[]): number =>
  difficultyOf(Math.max(0, ...bars.map(({ load }) => load)));

function sayReasons(strains: readonly Strain[]): string[] {
  const heaviest = new Map<string, Strain>();
  for (const strain of strains) {
    if (strain.load <= comfortable + rounding) continue;
    const key = `${strain.hand} ${strain.kind}`;
    if (strain.load > (heaviest.get(key)?.load ?? 0)) heaviest.set(key, strain);
  }
  return [...heaviest.values()].sort((a, b) => b.load - a.load).map(sayStrain);
}

function compareBars(
  score: Score,
  fromBar: number,
  printed: readonly (readonly BarEvent[])[],
  written: readonly (readonly BarEvent[])[],
): Fidelity {
  return printed.reduce((sum, events, index) => {
    const bar = score.bars[fromBar + index];
    if (!bar) return sum;
    const beats = beatsOf(bar.length, beatOf(bar.metre));
    return addFidelity(sum, compareBar(events, written[index] ?? [], beats));
  }, wholeFidelity);
}

function losesGraceNotes(part: Part, fromBar: number, toBar: number): boolean {
  for (let bar = fromBar; bar <= toBar; bar += 1) if (hasGraceNotes(part, bar)) return true;
  return false;
}
