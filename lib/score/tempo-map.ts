import { findFermatas } from "./find-fermatas";
import { holdFermatas } from "./hold-fermatas";
import { layTempi } from "./lay-tempi";
import { pieceLength } from "./piece-length";
import { scaleByTimings } from "./scale-by-timings";
import type { Score } from "./score";
import { findTempoEvents } from "./tempo-events";
import type { TempoMap } from "./tempo-segment";
import { defaultTempoSettings, type TempoSettings } from "./tempo-settings";

export type { TempoBasis, TempoMap } from "./tempo-segment";
export type { TempoSettings } from "./tempo-settings";

/**
 * Tempo of every place of the piece: printed numbers, the duo's own tempi over them, and defaults where neither is
 * given, each of which is listed as an assumption.
 *
 * - The number of a metronome mark, else of a `sound` element, counts; at the same place the duo's own counts more.
 * - Tempo words without a number have a default (tempo-words.ts), counted in the beats of the metre.
 * - Ritardando and accelerando change the tempo evenly until the next tempo, for four bars at most; then the tempo
 *   before them returns. A number at the same place already says what happens, so that no ramp is added to it.
 * - A fermata holds its note for `fermataFactor` times its length.
 * - The duo's timing of a section scales what lies in it.
 *
 * @param settings what the duo decided; what is missing has its default.
 * @throws RangeError if a setting lies outside the piece or is not a positive number.
 * Source: common practice; settings in tempo-settings.ts.
 */
export function readTempoMap(score: Score, settings: Partial<TempoSettings> = {}): TempoMap {
  const decided = { ...defaultTempoSettings, ...settings };
  checkSettings(decided);
  if (pieceLength(score).num === 0) return { segments: [], assumptions: [] };
  const { segments, assumptions } = layTempi(
    score,
    findTempoEvents(score, decided.tempi),
    decided.ritardandoTo,
  );
  const held = holdFermatas(score, segments, findFermatas(score), decided.fermataFactor);
  return {
    segments: scaleByTimings(score, held.segments, decided.timings),
    assumptions: [...assumptions, ...held.assumptions],
  };
}

function checkSettings({ tempi, ritardandoTo, fermataFactor, timings }: TempoSettings): void {
  const numbers = [
    ritardandoTo,
    fermataFactor,
    ...tempi.map((tempo) => tempo.quartersPerMinute),
    ...timings.map((timing) => timing.seconds),
  ];
  const wrong = numbers.find((number) => !(Number.isFinite(number) && number > 0));
  if (wrong !== undefined) throw new RangeError(`Not a positive number in the tempo settings: ${wrong}`);
}
