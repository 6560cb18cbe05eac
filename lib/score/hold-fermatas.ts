import type { Fermata } from "./find-fermatas";
import { positionAt } from "./position-at";
import type { Score } from "./score";
import { changeWithin } from "./split-segments";
import type { TempoAssumption, TempoSegment } from "./tempo-segment";

/** Slows each held note down so that it lasts `factor` times as long. */
export function holdFermatas(
  score: Score,
  segments: readonly TempoSegment[],
  fermatas: readonly Fermata[],
  factor: number,
): { segments: TempoSegment[]; assumptions: TempoAssumption[] } {
  if (factor === 1) return { segments: [...segments], assumptions: [] };
  const held = changeWithin(
    segments,
    fermatas.map(({ onset, end }) => ({ from: onset, to: end })),
    (segment) => ({
      ...segment,
      startQuartersPerMinute: segment.startQuartersPerMinute / factor,
      endQuartersPerMinute: segment.endQuartersPerMinute / factor,
    }),
  );
  return { segments: held, assumptions: fermatas.map((fermata) => assumeHold(score, fermata, factor)) };
}

function assumeHold(score: Score, { onset }: Fermata, factor: number): TempoAssumption {
  const position = positionAt(score, onset);
  const barLabel = score.bars[position.barIndex]?.label ?? "";
  const sentence = `The fermata in bar ${barLabel} is assumed to last ${factor} times the written length.`;
  return { kind: "fermata", position, barLabel, printed: null, assumed: factor, sentence };
}
