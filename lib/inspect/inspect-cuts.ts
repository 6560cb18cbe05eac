import { type CheckedNeed, checkRestNeeds } from "@/lib/breath/check-rest-needs";
import { nameCut } from "@/lib/cuts/name-cut";
import type { PlannedSet } from "@/lib/cuts/plan/planned-set";
import type { RestNeed } from "@/lib/edition/rest-need";
import { type CutSpan, isSameSpan } from "@/lib/score/cut-span";
import { findSoloPart } from "@/lib/score/find-part";
import { comparePositions, type Position } from "@/lib/score/position";
import { writeQuarters } from "@/lib/score/quarters";
import { findRunningTime, type RunningTime } from "@/lib/score/running-time";
import type { Score } from "@/lib/score/score";
import type { Steps } from "@/lib/score/steps";
import { lookForCuts, type OfferedCut } from "@/lib/study/look-for-cuts";
import type { Study } from "@/lib/study/open-study";
import { type PiecePlan, planPiece, shortestTuttiBars } from "@/lib/study/plan-piece";
import type { Tutti } from "@/lib/tutti/find-tuttis";
import type {
  CutsReport,
  ReportedCut,
  ReportedNeed,
  ReportedPlan,
  ReportedSet,
  ReportedTutti,
} from "./cuts-report";

const [cutsPerTutti, startsPerOpening] = [5, 3];

export interface CutsQuestion {
  /** Null for no plan. */
  readonly limitSeconds: number | null;
  /** Their ids are numbers from 1. */
  readonly needs: readonly RestNeed[];
}

const round = (value: number) => Math.round(value * 1000) / 1000;

function tellPlace(score: Score, { barIndex, offset }: Position) {
  return { barIndex, barLabel: score.bars[barIndex]?.label ?? "", offset: writeQuarters(offset) };
}

const tellEnds = (score: Score, { from, to }: CutSpan) => ({
  from: tellPlace(score, from),
  to: tellPlace(score, to),
});

const tellRunningTime = ({ seconds, low, high, sentence }: RunningTime) => ({
  seconds: round(seconds),
  low: round(low),
  high: round(high),
  sentence,
});

function tellNeed({ need, verdict, seconds, sentence }: CheckedNeed): ReportedNeed {
  return {
    entry: Number(need.id),
    why: need.why,
    verdict,
    secondsBefore: round(seconds.before),
    secondsAfter: round(seconds.after),
    sentence,
  };
}

function tellCut(score: Score, cut: OfferedCut): ReportedCut {
  const { name, grade, reasons, weight, assessment, alsoAt, robs } = cut;
  const { repaired } = assessment;
  return {
    name,
    ...tellEnds(score, cut),
    barCount: weight.barCount,
    savedSeconds: round(weight.savedSeconds),
    grade,
    reasons: [...reasons],
    rows: assessment.rows.map(({ kind, grade: rowGrade, sentence }) => ({ kind, grade: rowGrade, sentence })),
    toWrite: assessment.toWrite.map(({ sentence }) => sentence),
    better: repaired && {
      name: nameCut(score, repaired.cut),
      grade: repaired.grade,
      sentence: repaired.sentence,
    },
    alsoAt: alsoAt.map((other) => nameCut(score, other)),
    rest: weight.rest && {
      beforeSeconds: round(weight.rest.beforeSeconds),
      afterSeconds: round(weight.rest.afterSeconds),
      nextEntry: weight.rest.nextEntryLabel,
    },
    robs: robs.map(tellNeed),
  };
}

/** A tutti that is repeated stands once on the page. One that goes over a jump has no music of its own to cut. */
function findPlaces(tuttis: readonly Tutti[]): Tutti[] {
  return tuttis.filter(
    (tutti, index) =>
      comparePositions(tutti.from, tutti.to) < 0 &&
      tuttis.findIndex((other) => isSameSpan(other, tutti)) === index,
  );
}

function* inspectTutti(study: Study, tutti: Tutti, needs: readonly RestNeed[]): Steps<ReportedTutti> {
  const { score } = study;
  const search = { span: tutti, agreed: [], needs };
  const cuts = yield* lookForCuts(study, {
    ...search,
    look: "anywhere",
    filters: { resolution: "bars", limit: cutsPerTutti },
  });
  const starts =
    tutti.place === "opening"
      ? yield* lookForCuts(study, {
          ...search,
          look: "starts",
          filters: { resolution: "bars", limit: startsPerOpening },
        })
      : [];
  const { place, firstBarLabel, lastBarLabel, barCount, seconds, isLong } = tutti;
  return {
    place,
    firstBarLabel,
    lastBarLabel,
    barCount,
    seconds: round(seconds),
    isLong,
    cuts: cuts.map((cut) => tellCut(score, cut)),
    starts: starts.map((cut) => tellCut(score, cut)),
  };
}

function tellSet(
  { score, map }: Study,
  { candidates }: PiecePlan,
  needs: readonly RestNeed[],
  set: PlannedSet,
): ReportedSet {
  const spans = set.cuts.map(({ candidate }) => candidate);
  return {
    runsSeconds: round(set.runsSeconds),
    savedSeconds: round(set.savedSeconds),
    runningTime: tellRunningTime(set.evidence.runningTime),
    cuts: set.cuts.map(({ index, candidate, savedSeconds }) => ({
      name: nameCut(score, candidate),
      ...tellEnds(score, candidate),
      savedSeconds: round(savedSeconds),
      grade: candidates[index]?.grade ?? "clean",
      reasons: [...candidate.reasons],
    })),
    needs: checkRestNeeds(score, map, spans, needs).map(tellNeed),
  };
}

function* inspectPlan(study: Study, limitSeconds: number, needs: readonly RestNeed[]): Steps<ReportedPlan> {
  const options = { limitSeconds, rests: needs };
  const question = { options, agreed: [], filters: {}, allowsRough: false, without: [] };
  const planned = yield* planPiece(study, question);
  const { plan, candidates } = planned;
  const tell = (set: PlannedSet) => tellSet(study, planned, needs, set);
  return {
    limitSeconds,
    sentence: plan.sentence,
    best: plan.best && tell(plan.best),
    runnersUp: plan.runnersUp.map(tell),
    shortest: tell(plan.shortest),
    obstacles: (plan.obstacle?.rests ?? []).map(({ needId, unit, left, shortBy, set }) => ({
      entry: Number(needId),
      why: needs.find(({ id }) => id === needId)?.why ?? "",
      unit,
      left: round(left),
      shortBy: round(shortBy),
      set: tell(set),
    })),
    candidateCount: candidates.length,
  };
}

/**
 * What can be cut in a piece: the best cuts of each tutti with what they do to the soloist's rest, and the plan to a limit.
 * Says after each step how far it has come, in thousandths of the tuttis (twice as many with a limit).
 */
export function* inspectCuts(study: Study, { limitSeconds, needs }: CutsQuestion): Steps<CutsReport> {
  const { score, order, map } = study;
  const all = findPlaces(study.tuttis);
  const tuttis = all.filter(({ barCount }) => barCount >= shortestTuttiBars);
  const total = 1000 * Math.max(1, tuttis.length) * (limitSeconds === null ? 1 : 2);
  const found: ReportedTutti[] = [];
  for (const [index, tutti] of tuttis.entries()) {
    found.push(yield* withProgress(inspectTutti(study, tutti, needs), 1000 * index, 1000, total));
  }
  const half = total / 2;
  const plan =
    limitSeconds === null
      ? null
      : yield* withProgress(inspectPlan(study, limitSeconds, needs), half, half, total);
  const running = findRunningTime(score, order, map);
  const { title, movement, composer } = score;
  return {
    title,
    movement,
    composer,
    soloist: findSoloPart(score)?.name ?? null,
    runningTime: tellRunningTime(running),
    assumptions: map.assumptions.map(({ sentence }) => sentence),
    tuttis: found,
    shortTuttiCount: all.length - tuttis.length,
    needs: checkRestNeeds(score, map, [], needs).map(tellNeed),
    plan,
  };
}

/** The progress of a step as a part of the whole. */
function* withProgress<T>(steps: Steps<T>, from: number, length: number, total: number): Steps<T> {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
    const share = step.value.total === 0 ? 1 : step.value.done / step.value.total;
    yield { done: Math.round(from + length * Math.min(1, share)), total };
  }
}
