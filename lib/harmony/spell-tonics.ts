import type { Score } from "@/lib/score/score";
import type { HeardFrame } from "./heard-frame";
import { allKeys, type Key } from "./key";
import { spellingOutside, tonicSpellings } from "./key-fit";
import type { PitchClassFrame } from "./pitch-class-frames";

/** Fifths from a major tonic to the minor tonic of the same signature. */
const minorAbove = 3;

/** The tonic of one stretch in one key: as its notes are spelled, then as near the signature as can be. */
function spellTonic(key: Key, heard: readonly HeardFrame[], signature: number): number {
  const home = signature + (key.mode === "minor" ? minorAbove : 0);
  const cost = (tonic: number) =>
    heard.reduce((sum, { spellings }) => sum + spellingOutside(spellings, key, tonic), 0);
  const spelled = tonicSpellings(key).map((tonic) => ({
    tonic,
    cost: cost(tonic),
    away: Math.abs(tonic - home),
  }));
  return spelled.reduce((best, other) => {
    return other.cost < best.cost || (other.cost === best.cost && other.away < best.away) ? other : best;
  }).tonic;
}

/**
 * How the tonic of each frame's key is spelled, as a place on the line of fifths; one spelling for each stretch in
 * which the key stays.
 */
export function spellTonics(
  score: Score,
  frames: readonly PitchClassFrame[],
  heard: readonly HeardFrame[],
  keys: readonly number[],
): number[] {
  const tonics: number[] = [];
  while (tonics.length < keys.length) {
    const from = tonics.length;
    const change = keys.findIndex((key, index) => index > from && key !== keys[from]);
    const to = change < 0 ? keys.length : change;
    const signature = score.bars[frames[from]?.at.barIndex ?? 0]?.key.fifths ?? 0;
    const tonic = spellTonic(allKeys[keys[from] as number] as Key, heard.slice(from, to), signature);
    for (let index = from; index < to; index += 1) tonics.push(tonic);
  }
  return tonics;
}
