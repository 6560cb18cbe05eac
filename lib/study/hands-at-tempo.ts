import { assessHandsInSteps, type HandsReport } from "@/lib/hands/assess-hands";
import { barAtTempo, comfortablePace, type HandsVerdict } from "@/lib/hands/at-tempo";
import { type AwkwardPassage, findPassages } from "@/lib/hands/find-passages";
import type { HandsProfile } from "@/lib/hands/hands-profile";
import type { Strain } from "@/lib/hands/strain";
import { beatOf } from "@/lib/score/beat-of";
import { compareQuarters, quartersAsNumber, writeQuarters } from "@/lib/score/quarters";
import { tempoWithin } from "@/lib/score/split-segments";
import type { Steps } from "@/lib/score/steps";
import type { Study } from "./open-study";

export interface HandsQuestion {
  readonly hands: HandsProfile;
  /** Share of the duo's tempo: 1 is that tempo, 0.5 half as fast. */
  readonly pace: number;
  /** Paces for which the passages are counted. */
  readonly counted: readonly number[];
}

/** The tempo in force where a bar begins, counted in the beats of its metre. */
export interface BarTempo {
  /** In quarter notes, as text: "1", "3/2". */
  readonly beat: string;
  readonly perMinute: number;
}

/** A bar at the asked pace. */
export interface BarAtPace {
  readonly difficulty: number;
  readonly verdict: HandsVerdict;
  /** With each hand on its own staff, as the two above are not. */
  readonly isEasyAsPrinted: boolean;
  /** Up to which share of the tempo it is comfortable; 0 at none. Infinity for a rest. */
  readonly comfortablePace: number;
}

/** A passage with what the pianist is told of it. */
export interface PassageAtPace extends AwkwardPassage {
  /** Of the hardest of its bars. */
  readonly comfortablePace: number;
  /** Everything that is uncomfortable in it as printed: of each kind and hand the heaviest, the heaviest first. */
  readonly strains: readonly Strain[];
}

/** The whole piece under one pianist's hands at one pace; small enough to be sent to a screen at each step of a slider. */
export interface HandsAtTempo {
  readonly hands: HandsProfile;
  readonly pace: number;
  /** By bar index, as are the tempi, which are those of the duo: pace 1. */
  readonly bars: readonly BarAtPace[];
  readonly tempi: readonly BarTempo[];
  readonly passages: readonly PassageAtPace[];
  /** How many passages there are at the paces asked for, in their order. */
  readonly counts: readonly number[];
}

/** Reports of a study, by the hands they are for; the latest last. */
const reportsOf = new WeakMap<Study, Map<string, HandsReport>>();
/** Those of the pianist and those of a profile that is being changed. */
const mostReports = 4;

/** What each bar asks of these hands: worked out once for each profile of a study. Says how far it has come. */
export function* handsReport(study: Study, hands: HandsProfile): Steps<HandsReport> {
  const reports = reportsOf.get(study) ?? new Map<string, HandsReport>();
  reportsOf.set(study, reports);
  const key = JSON.stringify(hands);
  const report = reports.get(key) ?? (yield* assessHandsInSteps(study.score, study.map, hands));
  reports.delete(key);
  reports.set(key, report);
  const [oldest] = reports.keys();
  if (reports.size > mostReports && oldest !== undefined) reports.delete(oldest);
  return report;
}

/**
 * Where the pianist's part does not lie under these hands at this pace, and how many such places there are at others.
 *
 * @throws RangeError if a pace is not positive.
 */
export function* handsAtTempo(study: Study, { hands, pace, counted }: HandsQuestion): Steps<HandsAtTempo> {
  const report = yield* handsReport(study, hands);
  const bars = report.bars.map((bar) => barAtTempo(bar, pace));
  const paces = report.bars.map(comfortablePace);
  return {
    ...{ hands, pace, tempi: listTempi(study) },
    bars: bars.map(({ difficulty, verdict, printed }, index) => ({
      ...{ difficulty, verdict },
      isEasyAsPrinted: printed === null || printed.verdict === "easy",
      comfortablePace: paces[index] ?? 0,
    })),
    passages: findPassages(bars).map((passage) => ({
      ...passage,
      comfortablePace: Math.min(...paces.slice(passage.fromBar, passage.toBar + 1)),
      strains: heaviestOf(
        bars.slice(passage.fromBar, passage.toBar + 1).flatMap(({ printed }) => printed?.strains ?? []),
      ),
    })),
    counts: counted.map((other) => countAt(report, other)),
  };
}

/** Counts of a report by pace: the slider asks for the same ones at each of its steps. */
const countsOf = new WeakMap<HandsReport, Map<number, number>>();

function countAt(report: HandsReport, pace: number): number {
  const counts = countsOf.get(report) ?? new Map<number, number>();
  countsOf.set(report, counts);
  const count = counts.get(pace) ?? findPassages(report.bars.map((bar) => barAtTempo(bar, pace))).length;
  counts.set(pace, count);
  return count;
}

function heaviestOf(strains: readonly Strain[]): Strain[] {
  const byKind = new Map<string, Strain>();
  for (const strain of strains) {
    const key = `${strain.kind} ${strain.hand}`;
    if (strain.load > (byKind.get(key)?.load ?? 1)) byKind.set(key, strain);
  }
  return [...byKind.values()].sort((a, b) => b.load - a.load);
}

function listTempi({ score, map }: Study): BarTempo[] {
  let index = 0;
  return score.bars.map(({ start, metre }) => {
    while (map.segments[index + 1] && compareQuarters(map.segments[index]?.to ?? start, start) <= 0)
      index += 1;
    const segment = map.segments[index];
    const beat = beatOf(metre);
    const quartersPerMinute = segment ? tempoWithin(segment, start) : 0;
    return { beat: writeQuarters(beat), perMinute: quartersPerMinute / quartersAsNumber(beat) };
  });
}
