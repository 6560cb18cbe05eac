import type { CutSpan } from "@/lib/score/cut-span";
import { findSoloPart } from "@/lib/score/find-part";
import { leaveOut } from "@/lib/score/leave-out";
import { findPerformedOrder } from "@/lib/score/performed-order";
import type { Position } from "@/lib/score/position";
import { sayLeft } from "@/lib/score/say-seconds";
import type { Score } from "@/lib/score/score";
import type { TempoMap } from "@/lib/score/tempo-map";
import {
  type BreathPreferences,
  checkBreathPreferences,
  defaultBreathPreferences,
} from "./breath-preferences";
import { type BreathPoint, readSoloPlaying, type SoloPlaying } from "./find-breaths";
import { findLongest, findStretches, type Stretch } from "./find-stretches";
import { findPlayToRest, type PlayToRest } from "./play-to-rest";
import { type SuggestedBreath, suggestBreaths } from "./suggest-breaths";

/** How the soloist breathes through a performance. */
export interface BreathReport {
  readonly breaths: readonly BreathPoint[];
  /** From breath to breath. */
  readonly stretches: readonly Stretch[];
  readonly longest: Stretch | null;
  readonly playToRest: PlayToRest & {
    /** Printed labels of the bars in which the hardest window begins and ends. */
    readonly firstBarLabel: string;
    readonly lastBarLabel: string;
  };
  /** Empty when every stretch is comfortable, or when playing needs no breath. */
  readonly suggestions: readonly SuggestedBreath[];
  readonly preferences: BreathPreferences;
  readonly sentence: string;
}

export interface BreathOptions {
  /** Breath marks of the player. */
  readonly marks?: readonly Position[];
  /** The player's own numbers; what is missing has its default for the instrument. */
  readonly preferences?: Partial<BreathPreferences>;
  /** Indices of bars with which a phrase is thought to begin, if that is known. */
  readonly phraseStarts?: readonly number[];
}

/** Stretches that a mark divides are one to the clock: a mark is no rest. */
function findPlayed({ breaths, timeline }: SoloPlaying) {
  const rests = breaths.filter(({ kind }) => kind === "rest");
  const starts = [0, ...rests.map(({ endSeconds }) => endSeconds)];
  return starts
    .map((startSeconds, index) => {
      return { startSeconds, endSeconds: rests[index]?.startSeconds ?? timeline.totalSeconds };
    })
    .filter(({ startSeconds, endSeconds }) => startSeconds < endSeconds);
}

function labelAt({ score, timeline }: SoloPlaying, time: number, isEnd: boolean): string {
  const bar = timeline.bars.findLast(({ startSeconds }) =>
    isEnd ? startSeconds < time - 1e-9 : startSeconds <= time + 1e-9,
  );
  return score.bars[(bar ?? timeline.bars[0])?.barIndex ?? -1]?.label ?? "";
}

function say(score: Score, longest: Stretch | null, comfortable: number | null): string {
  if (!longest) return "The soloist plays nothing.";
  const [from, to] = [longest.from.barIndex, longest.to.barIndex].map(
    (index) => score.bars[index]?.label ?? "",
  );
  const where = from === to ? `in bar ${from}` : `from bar ${from} to bar ${to}`;
  const fact = `The longest stretch without a breath is ${sayLeft(longest.seconds)}, ${where}`;
  if (comfortable === null) return `${fact}.`;
  return longest.seconds > comfortable
    ? `${fact}: longer than the ${sayLeft(comfortable)} that are comfortable.`
    : `${fact}: within the ${sayLeft(comfortable)} that are comfortable.`;
}

/**
 * Breath-to-breath times, the longest stretch, playing against resting, and breaths that would help, for a performance
 * with or without cuts. Null without a solo part or when nothing is played.
 *
 * @throws RangeError if a preference makes no sense, a mark lies outside the piece, or a cut cannot be made.
 */
export function assessBreath(
  score: Score,
  map: TempoMap,
  cuts: readonly CutSpan[],
  options: BreathOptions = {},
): BreathReport | null {
  const preferences = { ...defaultBreathPreferences(findSoloPart(score)), ...options.preferences };
  checkBreathPreferences(preferences);
  const order = leaveOut(score, findPerformedOrder(score), cuts);
  const playing = readSoloPlaying(score, map, order, options.marks ?? [], preferences.catchSeconds);
  if (!playing) return null;
  const { comfortableSeconds, windowSeconds, restPerPlayed } = preferences;
  const stretches = findStretches(playing);
  const longest = findLongest(stretches);
  const total = playing.timeline.totalSeconds;
  const ratio = findPlayToRest(findPlayed(playing), total, windowSeconds, restPerPlayed);
  const phrases = new Set(options.phraseStarts ?? []);
  return {
    breaths: playing.breaths,
    stretches,
    longest,
    playToRest: {
      ...ratio,
      firstBarLabel: labelAt(playing, ratio.window.startSeconds, false),
      lastBarLabel: labelAt(playing, ratio.window.endSeconds, true),
    },
    suggestions:
      comfortableSeconds === null ? [] : suggestBreaths(playing, stretches, comfortableSeconds, phrases),
    preferences,
    sentence: say(score, longest, comfortableSeconds),
  };
}

/** The same performance without and with cuts. */
export function assessBreathUnderCuts(
  score: Score,
  map: TempoMap,
  cuts: readonly CutSpan[],
  options: BreathOptions = {},
): { readonly before: BreathReport | null; readonly after: BreathReport | null } {
  return { before: assessBreath(score, map, [], options), after: assessBreath(score, map, cuts, options) };
}
