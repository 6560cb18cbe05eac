import type { BarDemand } from "./assess-hands";
import type { BarOption } from "./bar-strains";
import type { Strain } from "./strain";
import { capLeap } from "./strains/leap";

export type HandsVerdict = "easy" | "awkward" | "not playable";

/** One way of sharing a bar at one tempo. */
export interface ShareAtTempo {
  readonly option: BarOption;
  /** With loads and figures at this tempo, the heaviest first. */
  readonly strains: readonly Strain[];
  /** Of the heaviest; 0 without any. */
  readonly load: number;
  readonly verdict: HandsVerdict;
}

/** A bar at one tempo. */
export interface BarUnderHands {
  readonly barIndex: number;
  /** Shared in the easiest way: 0 for a rest, 50 where it stops being comfortable, 67 where it cannot be done. */
  readonly difficulty: number;
  readonly verdict: HandsVerdict;
  /** Each hand its own staff; null for a rest, as is the next. */
  readonly printed: ShareAtTempo | null;
  /** The printed way, when none is easier. */
  readonly easiest: ShareAtTempo | null;
}

/** From here on a bar is awkward; from the second on it cannot be done. */
const [awkward, impossible] = [1, 2];
/** What seconds lose when they are added up. */
const rounding = 1e-9;

/**
 * A bar at a share of the tempo that was read: 1 is that tempo, 0.5 half as fast. Faster is never easier.
 *
 * @throws RangeError if `pace` is not positive.
 */
export function barAtTempo({ barIndex, options }: BarDemand, pace: number): BarUnderHands {
  if (!(pace > 0)) throw new RangeError(`Not a share of a tempo: ${pace}`);
  if (options === null) return { barIndex, difficulty: 0, verdict: "easy", printed: null, easiest: null };
  const printed = shareAtTempo(options.printed, pace);
  const easiest = options.easiest
    .map((option) => shareAtTempo(option, pace))
    .reduce((best, other) => (other.load < best.load ? other : best), printed);
  return { barIndex, difficulty: difficultyOf(easiest.load), verdict: easiest.verdict, printed, easiest };
}

/** 0 at no load, 50 at 1, 67 at 2, towards 100: ours, so that everything has a place on one scale. */
export function difficultyOf(load: number): number {
  return Math.round((100 * load) / (1 + load));
}

/** What is said of a difficulty. */
export function verdictOf(difficulty: number): HandsVerdict {
  if (difficulty <= difficultyOf(awkward)) return "easy";
  return difficulty < difficultyOf(impossible) ? "awkward" : "not playable";
}

function shareAtTempo(option: BarOption, pace: number): ShareAtTempo {
  const strains = option.strains.map((strain) => strainAtTempo(strain, pace)).sort((a, b) => b.load - a.load);
  const load = strains[0]?.load ?? 0;
  const verdict =
    load >= impossible - rounding ? "not playable" : load > awkward + rounding ? "awkward" : "easy";
  return { option, strains, load, verdict };
}

function strainAtTempo(strain: Strain, pace: number): Strain {
  if (!strain.isTimed) return strain;
  const load = strain.load * pace;
  if (strain.kind === "leap") {
    return { ...strain, load: capLeap(load), availableSeconds: (strain.availableSeconds ?? 0) / pace };
  }
  return { ...strain, load, figure: strain.figure * pace };
}

/** Up to which share of the tempo a bar stays comfortable; 0 when it does not at any, Infinity when it always does. */
export function comfortablePace({ options }: BarDemand): number {
  if (options === null) return Number.POSITIVE_INFINITY;
  return Math.max(...options.easiest.map(paceOf));
}

function paceOf({ strains }: BarOption): number {
  const heaviest = (isTimed: boolean) =>
    Math.max(0, ...strains.filter((strain) => strain.isTimed === isTimed).map(({ load }) => load));
  return heaviest(false) > awkward + rounding ? 0 : awkward / heaviest(true);
}
