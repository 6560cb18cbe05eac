import { checkCut } from "@/lib/cuts/check-cut";
import type { CutCandidate, KeepSpan } from "@/lib/cuts/plan/cut-candidate";
import type { PlanOptions } from "@/lib/cuts/plan/plan-options";
import type { RestNeed } from "@/lib/edition/rest-need";
import { onsetOf } from "@/lib/score/onset-of";
import { findPerformedOrder } from "@/lib/score/performed-order";
import { compareQuarters } from "@/lib/score/quarters";
import { findRunningTime } from "@/lib/score/running-time";
import type { Score } from "@/lib/score/score";
import { readTempoMap, type TempoMap } from "@/lib/score/tempo-map";
import { at, buildScore } from "../../../builders/build-score";
import type { Choices } from "../../../builders/choices";

/** A small piece with candidates, needs and a limit. */
export interface PlanCase {
  readonly score: Score;
  readonly map: TempoMap;
  readonly candidates: readonly CutCandidate[];
  readonly options: PlanOptions;
}

const bars = ["R", "R", "R", "R", "c5:w", "c5:h r:h", "r:h c5:h", "r:q c5:h r:q", "c5:q r:q d5:q r:q"];
const tempi = ["", "", "", "", "q=90 ", "q=112 ", '"rit." '];

/** Bars of rest mostly, with repeats, and sometimes a da capo, so that rests go over jumps. */
function writeSolo(choices: Choices, barCount: number): string {
  const written: string[] = [];
  let isRepeating = false;
  let isOver = false;
  for (let index = 0; index < barCount; index += 1) {
    const isLast = index === barCount - 1;
    let line = " | ";
    if (isRepeating && (isLast || choices.oneIn(3))) {
      line = " :| ";
      isRepeating = false;
      isOver = true;
    } else if (!isRepeating && !isOver && !isLast && choices.oneIn(9)) {
      line = " |: ";
      isRepeating = true;
    }
    written.push(`${choices.pick(tempi)}${choices.pick(bars)}${line}`);
  }
  const text = written.join("").replace(/ \| $/, "");
  return !isOver && !isRepeating && choices.oneIn(5) ? `${text} $dc` : text;
}

function makeCandidate(choices: Choices, barCount: number): CutCandidate {
  const place = () => at(choices.below(barCount), choices.oneIn(3) ? choices.below(4) : 0);
  const [a, b] = [place(), place()];
  const isForward =
    a.barIndex < b.barIndex || (a.barIndex === b.barIndex && compareQuarters(a.offset, b.offset) < 0);
  return { from: isForward ? a : b, to: isForward ? b : a, cost: choices.below(12), reasons: [] };
}

function makeNeed(choices: Choices, barCount: number, index: number): RestNeed {
  const from = choices.below(barCount);
  const to = Math.min(barCount - 1, from + choices.below(3));
  return {
    id: `need${index}`,
    from: at(from),
    to: at(to, to === from ? 4 : choices.below(5)),
    needs: choices.oneIn(3) ? { bars: choices.below(5) } : { seconds: choices.below(140) / 10 },
    why: "lip",
    releasedBy: choices.oneIn(6) ? "nerys" : null,
  };
}

/** Candidates that can be made at all, so that every choice is about limit and rests. */
export function makePlanCase(choices: Choices): PlanCase {
  const barCount = 4 + choices.below(9);
  const tempo = choices.pick([60, 72, 107, 120]);
  const piano = Array.from({ length: barCount }, () => "c3:w").join(" | ");
  const score = buildScore({ tempo, solo: writeSolo(choices, barCount), piano });
  const candidates = choices
    .upTo(8, () => makeCandidate(choices, barCount))
    .filter((candidate) => checkCut(score, candidate).ok);
  const keep: KeepSpan[] = choices.oneIn(5) ? [{ from: at(1), to: at(2), why: "bar 2" }] : [];
  const rests = choices.upTo(3, (index) => makeNeed(choices, barCount, index));
  const map = readTempoMap(score);
  const whole = findRunningTime(score, findPerformedOrder(score), map).seconds;
  const limitSeconds = Math.round(whole * (40 + choices.below(62))) / 100;
  return { score, map, candidates, options: { limitSeconds, rests, keep } };
}

/** Written time of both ends. */
export function spanOf(score: Score, { from, to }: Pick<CutCandidate, "from" | "to">) {
  return { from: onsetOf(score, from), to: onsetOf(score, to) };
}
