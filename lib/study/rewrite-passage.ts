import { toPositionTerms } from "@/lib/edition/position-terms";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { BarDemand } from "@/lib/hands/assess-hands";
import { barAtTempo, difficultyOf } from "@/lib/hands/at-tempo";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import { type ChosenRewrite, chooseRewritesInSteps, type PrintedBar } from "@/lib/rewrites/choose-rewrites";
import type { Fidelity } from "@/lib/rewrites/fidelity";
import { hasGraceNotes, readBarEvents } from "@/lib/rewrites/read-bar-events";
import { toRewriteTerms } from "@/lib/rewrites/to-rewrite-terms";
import { beatOf } from "@/lib/score/beat-of";
import { findSoloPart } from "@/lib/score/find-part";
import type { Part } from "@/lib/score/part";
import { midiNumber } from "@/lib/score/pitch";
import { isPlayed } from "@/lib/score/playing-spans";
import { addQuarters, subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { finishSteps, type Steps } from "@/lib/score/steps";
import type { TempoMap } from "@/lib/score/tempo-map";
import { judgeUnder } from "./judge-rewrite";

/** A rewrite that is suggested, with what it does for the hands and what it costs the listener. */
export interface RewriteOffer {
  readonly terms: RewriteTerms;
  /** From 0; 50 where it stops being comfortable for this pianist. */
  readonly difficultyBefore: number;
  readonly difficultyAfter: number;
  readonly fidelity: Fidelity;
  /** Grace notes of the passage are not kept. */
  readonly losesGraceNotes: boolean;
}

export interface RewriteQuestion {
  readonly score: Score;
  readonly map: TempoMap;
  readonly sourceHash: string;
  /** Bars by index, both included. */
  readonly fromBar: number;
  readonly toBar: number;
  readonly hands: HandsProfile;
  /** What each bar asks, of `assessHands` for the same hands. */
  readonly demands: readonly BarDemand[];
  /** Share of the tempo that was read. */
  readonly pace: number;
}

/** Comfortable, with a little room. Ours. */
const wishedLoad = 0.95;
const offerCount = 3;

/**
 * Ways of writing a passage so that it lies under the hands, the best first; none when nothing makes it easier.
 *
 * @throws RangeError if the score has no reduction, or the bars do not lie in it.
 */
export function rewritePassage(question: RewriteQuestion): RewriteOffer[] {
  return finishSteps(rewritePassageInSteps(question));
}

/** The same, a bar at a time, so that it can be left. */
export function* rewritePassageInSteps(question: RewriteQuestion): Steps<RewriteOffer[]> {
  const offers = yield* rewriteBars(question);
  if (offers.length > 0 || question.fromBar === 0) return offers;
  // What is hard may be how the hand comes into the passage: then the bar before has to help.
  return yield* rewriteBars({ ...question, fromBar: question.fromBar - 1 });
}

function* rewriteBars(question: RewriteQuestion): Steps<RewriteOffer[]> {
  const { score, map, hands, pace, fromBar, toBar } = question;
  const part = score.parts.find(({ role }) => role === "reduction");
  if (!part) throw new RangeError("The score has no reduction");
  const bars = Array.from({ length: toBar - fromBar + 1 }, (_, index) =>
    readPrinted(question, part, fromBar + index),
  );
  const judge = judgeUnder(score, map, part, hands, pace);
  const chosen = yield* chooseRewritesInSteps(bars, judge, { wishedLoad, count: offerCount });
  return chosen
    .filter(({ load, printedLoad, isWithinReach }) => load < printedLoad && isWithinReach)
    .map((one) => toOffer(question, part, one));
}

function toOffer(question: RewriteQuestion, part: Part, chosen: ChosenRewrite): RewriteOffer {
  const { score, sourceHash, fromBar, toBar } = question;
  const last = score.bars[toBar];
  if (!last) throw new RangeError(`No bar with index ${toBar} in a piece of ${score.bars.length} bars`);
  const terms = toRewriteTerms({
    ...{ sourceHash, partId: part.id, fromBar },
    to: toPositionTerms({ barIndex: toBar, offset: last.length }),
    bars: chosen.bars,
    words: chosen.words.join(", "),
  });
  return {
    terms,
    difficultyBefore: difficultyOf(chosen.printedLoad),
    difficultyAfter: difficultyOf(chosen.load),
    fidelity: chosen.fidelity,
    losesGraceNotes: score.bars.slice(fromBar, toBar + 1).some(({ index }) => hasGraceNotes(part, index)),
  };
}

function readPrinted(
  { score, hands, demands, pace }: RewriteQuestion,
  part: Part,
  barIndex: number,
): PrintedBar {
  const bar = score.bars[barIndex];
  if (!bar) throw new RangeError(`No bar with index ${barIndex} in a piece of ${score.bars.length} bars`);
  const demand = demands[barIndex];
  const easiest = demand ? barAtTempo(demand, pace).easiest : null;
  const division = easiest?.option.division;
  const solo = findSoloPart(score)?.notes ?? [];
  return {
    ...{ barIndex, length: bar.length, beat: beatOf(bar.metre), staffCount: part.staffCount },
    reach: { left: hands.left.possible, right: hands.right.possible },
    rightFromMidi: division?.by === "key" ? division.rightFromMidi : null,
    solo: solo.flatMap((note) => {
      if (note.barIndex !== barIndex || !note.sounding || !isPlayed(note)) return [];
      const offset = subtractQuarters(note.onset, bar.start);
      return [
        { midi: Math.round(midiNumber(note.sounding)), offset, end: addQuarters(offset, note.duration) },
      ];
    }),
    events: readBarEvents(score, part, barIndex),
  };
}
