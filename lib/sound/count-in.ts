import { beatOf } from "@/lib/score/beat-of";
import { findFermatas } from "@/lib/score/find-fermatas";
import { onsetOf } from "@/lib/score/onset-of";
import type { Position } from "@/lib/score/position";
import { compareQuarters, quartersAsNumber, subtractQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { tempoWithin } from "@/lib/score/split-segments";
import type { TempoMap } from "@/lib/score/tempo-segment";
import type { CountInClick } from "./schedule";

/** With fewer beats in a bar, two bars are counted. Common practice. */
const fewestBeats = 3;

/**
 * The beats that are counted before the music: one bar, two where a bar has two beats or one, and what lies in the bar
 * before the place where the music begins. In the metre and the tempo of that place; a fermata there does not slow it.
 */
export function readCountIn(score: Score, map: TempoMap, from: Position): CountInClick[] {
  const bar = score.bars[from.barIndex];
  const tempo = tempoAt(score, map, from);
  if (!bar || tempo === null) return [];
  const beat = quartersAsNumber(beatOf(bar.metre));
  const metreLength = quartersAsNumber(bar.metreLength);
  const missing = bar.isPickup ? metreLength - quartersAsNumber(bar.length) : 0;
  const inBar = quartersAsNumber(from.offset) + Math.max(0, missing);
  const barCount = metreLength / beat < fewestBeats ? 2 : 1;
  const secondsOf = (quarters: number) => (quarters * 60) / tempo;
  const clicks: CountInClick[] = [];
  const epsilon = 1e-9;
  for (let at = 0; at < barCount; at += 1) {
    for (let offset = 0; offset < metreLength - epsilon; offset += beat) {
      const before = (barCount - at) * metreLength + inBar - offset;
      clicks.push({ seconds: -secondsOf(before), isFirst: offset === 0 });
    }
  }
  for (let offset = 0; offset < inBar - epsilon; offset += beat) {
    clicks.push({ seconds: -secondsOf(inBar - offset), isFirst: offset === 0 });
  }
  return clicks;
}

/** Quarters a minute at a place, or behind the fermata that it lies under. */
function tempoAt(score: Score, map: TempoMap, from: Position): number | null {
  let onset = onsetOf(score, from);
  const held = findFermatas(score).find(
    (fermata) => compareQuarters(fermata.onset, onset) <= 0 && compareQuarters(onset, fermata.end) < 0,
  );
  const last = map.segments.at(-1);
  if (held && last && compareQuarters(held.end, last.to) < 0) onset = held.end;
  const segment = map.segments.find(({ to }) => compareQuarters(onset, to) < 0) ?? last;
  if (!segment) return null;
  const isInside =
    compareQuarters(subtractQuarters(onset, segment.from), subtractQuarters(segment.to, segment.from)) <= 0;
  return isInside ? tempoWithin(segment, onset) : segment.endQuartersPerMinute;
}
