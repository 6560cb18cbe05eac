import { nameCut } from "@/lib/cuts/name-cut";
import { toPosition } from "@/lib/edition/position-terms";
import type { TempoTerms } from "@/lib/edition/tempo-terms";
import type { CutSpan } from "@/lib/score/cut-span";
import { leaveOut } from "@/lib/score/leave-out";
import { findRunningTime } from "@/lib/score/running-time";
import type { DeskRunningTime, DeskTimeEvidence } from "./desk";
import type { ScoreInTime } from "./in-time";
import type { DeskTempo } from "./strip-of";

/** How long the piece runs with these cuts. */
export function runningTimeWith(
  { score, order, map }: ScoreInTime,
  cuts: readonly CutSpan[],
): DeskRunningTime {
  const { seconds, low, high, basis, sentence } = findRunningTime(score, leaveOut(score, order, cuts), map);
  return { seconds, low, high, basis, sentence };
}

/** What a running time was computed from, in words. */
export function evidenceOf(
  { score, map }: ScoreInTime,
  tempo: TempoTerms,
  tempi: readonly DeskTempo[],
): DeskTimeEvidence {
  return {
    tempi: tempi.map(({ barIndex, words, beats, source }) => ({
      barLabel: score.bars[barIndex]?.label ?? "",
      ...{ words, beats, source },
    })),
    assumptions: [...new Set(map.assumptions.map(({ sentence }) => sentence))],
    fermataFactor: tempo.fermataFactor,
    ritardandoTo: tempo.ritardandoTo,
    timings: tempo.timings.map(({ from, to, seconds }) => ({
      name: nameCut(score, { from: toPosition(from), to: toPosition(to) }),
      seconds,
    })),
  };
}
