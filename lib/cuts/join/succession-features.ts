import { countBits, shareOfBits } from "./bits";
import type { ChordSuccessions } from "./chord-successions";
import type { Side } from "./side";
import { likenessOf } from "./window";

/**
 * What speaks against one side following another; each is larger the less it does, but for `association`.
 *
 * Each compares a description of the one side with a description of the other. Either is made without the other one's
 * music (`SideHearer`, `describeEdge`), keys and chords too: no description is smoothed across the place, so that two
 * sides that belong together in the piece have nothing in common but what they sound like. Slurs and hairpins across a
 * place are known to both sides, as the page shows them open at its edge on either.
 */
export const successionFeatures = [
  "topLeap",
  "bassLeap",
  "voiceLeading",
  "foreignTones",
  "laneLeap",
  "laneRhythm",
  "rhythm",
  "farRhythm",
  "density",
  "likeness",
  "centroid",
  "lanes",
  "held",
  "slurs",
  "hairpin",
  "level",
  "association",
  "key",
  "signature",
  "silence",
] as const;

export type SuccessionFeature = (typeof successionFeatures)[number];

const leap = (a: number, b: number): number => Math.log1p(Math.abs(a - b));

/** Where one of two outer voices is silent: as far as a leap of a fourth. */
const leapFromSilence = leap(0, 5);

function outerLeap(a: number | undefined, b: number | undefined): number {
  if (a === undefined || b === undefined) return a === b ? 0 : leapFromSilence;
  return leap(a, b);
}

/** Mean way from each pitch of one to the nearest of the other, an octave at most. */
function wayBetween(from: Uint8Array, to: Uint8Array): number {
  let sum = 0;
  for (const pitch of from) {
    let nearest = 12;
    for (const other of to) nearest = Math.min(nearest, Math.abs(pitch - other));
    sum += nearest;
  }
  return from.length === 0 ? 0 : sum / from.length;
}

function voiceLeading(a: Side, b: Side): number {
  if (a.pitches.length === 0 || b.pitches.length === 0) return a.pitches.length === b.pitches.length ? 0 : 3;
  return (wayBetween(a.pitches, b.pitches) + wayBetween(b.pitches, a.pitches)) / 2;
}

function laneLeap(a: Side, b: Side): number {
  let [sum, count] = [0, 0];
  for (let lane = 0; lane < a.laneTop.length; lane += 1) {
    const [from, to] = [a.laneTop[lane] as number, b.laneTop[lane] as number];
    if (from === 0 && to === 0) continue;
    sum += from === 0 || to === 0 ? leapFromSilence : leap(from, to);
    count += 1;
  }
  return count === 0 ? 0 : sum / count;
}

function laneRhythm(a: Side, b: Side): number {
  let [sum, count] = [0, 0];
  for (let lane = 0; lane < a.window.laneRhythm.length; lane += 1) {
    const [from, to] = [a.window.laneRhythm[lane] as number, b.window.laneRhythm[lane] as number];
    if (from === 0 && to === 0) continue;
    sum += 1 - shareOfBits(from, to);
    count += 1;
  }
  return count === 0 ? 0 : sum / count;
}

/** Notes held out of the one side that the other does not hold, and the other way round, as a share of all. */
function heldApart({ held: a }: Side, { held: b }: Side): number {
  if (a.length === 0 && b.length === 0) return 0;
  let [i, j, shared] = [0, 0, 0];
  while (i < a.length && j < b.length) {
    const difference = (a[i] as number) - (b[j] as number);
    if (difference === 0) shared += 1;
    if (difference <= 0) i += 1;
    if (difference >= 0) j += 1;
  }
  return 1 - shared / (a.length + b.length - shared);
}

/** What both sides together say against their best common key, beyond what each says against its own best. */
function keyApart({ keyCosts: a }: Side, { keyCosts: b }: Side): number {
  let [ofA, ofB, together] = [a[0] as number, b[0] as number, (a[0] as number) + (b[0] as number)];
  for (let key = 1; key < a.length; key += 1) {
    const [first, second] = [a[key] as number, b[key] as number];
    if (first < ofA) ofA = first;
    if (second < ofB) ofB = second;
    if (first + second < together) together = first + second;
  }
  return (together - ofA - ofB) / 1000;
}

const orZero = (value: number): number => (Number.isNaN(value) ? 0 : value);

/**
 * @param a what stands before, `b` what is to follow.
 * @param own number of the chord that follows `a` in the piece.
 * @param out filled, in the order of `successionFeatures`.
 */
export function measureSuccession(
  a: Side,
  b: Side,
  successions: ChordSuccessions,
  own: number,
  out: Float64Array,
): void {
  const rhythm = shareOfBits(a.window.rhythm, b.window.rhythm);
  out[0] = outerLeap(a.pitches.at(-1), b.pitches.at(-1));
  out[1] = outerLeap(a.pitches[0], b.pitches[0]);
  out[2] = Math.log1p(voiceLeading(a, b));
  out[3] = 1 - shareOfBits(a.mask, b.mask);
  out[4] = laneLeap(a, b);
  out[5] = laneRhythm(a, b);
  out[6] = 1 - rhythm;
  out[7] = a.farWindow ? 1 - shareOfBits(a.farWindow.rhythm, b.window.rhythm) : 1 - rhythm;
  out[8] = Math.abs(Math.log((1 + countBits(a.window.rhythm)) / (1 + countBits(b.window.rhythm))));
  out[9] = 1 - likenessOf(a.window, b.window, 0);
  out[10] = orZero(Math.abs(a.centroid - b.centroid)) / 12;
  out[11] = 1 - shareOfBits(a.lanes, b.lanes);
  out[12] = heldApart(a, b);
  out[13] = 1 - shareOfBits(a.slurs, b.slurs);
  out[14] = Math.abs(a.hairpin - b.hairpin);
  out[15] = orZero(Math.abs(a.level - b.level));
  out[16] = successions.association(a.chord, b.chord, own);
  out[17] = keyApart(a, b);
  out[18] = Math.min(3, orZero(Math.abs(a.signature - b.signature)));
  out[19] = a.sounds === b.sounds ? 0 : 1;
}
