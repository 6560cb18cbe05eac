import type { KeySignature } from "@/lib/score/bar";
import type { HeardFrame } from "./heard-frame";
import type { KeyFitCosts } from "./hearing-costs";
import { allKeys, type Key, relativeMajor } from "./key";
import type { KeyProfiles } from "./key-profiles";

/** −1000 · ln p, by number of the key and pitch class. */
export type LogTable = readonly Int32Array[];

/**
 * @throws RangeError if a share is not between 0 and 1, both exclusive: of a profile of presence each is.
 */
export function logTable(profiles: KeyProfiles): LogTable {
  return allKeys.map(({ tonic, mode }) =>
    Int32Array.from({ length: 12 }, (_, pitchClass) => {
      const share = profiles[mode][(pitchClass - tonic + 12) % 12] ?? 0;
      if (!(share > 0 && share < 1)) throw new RangeError(`Not a share of segments: ${share}`);
      return Math.round(-1000 * Math.log(share));
    }),
  );
}

/** Cost of the pitch classes of a frame in a key: −Σ ln p / √n over those that sound, in thousandths. */
export function profileCost(frame: HeardFrame, logs: Int32Array): number {
  if (frame.count === 0) return 0;
  let sum = 0;
  for (let pitchClass = 0; pitchClass < 12; pitchClass += 1) {
    if ((frame.mask >> pitchClass) & 1) sum += logs[pitchClass] as number;
  }
  return Math.round(sum / Math.sqrt(frame.count));
}

/**
 * Spellings that a key uses, in fifths from its tonic: major from the lowered second to the raised second, minor from the lowered fifth to the raised fourth. Source: common practice.
 */
const usedFifths = { major: { from: -5, to: 9 }, minor: { from: -6, to: 6 } } as const;
const farthest = 3;

function fifthsOutside(fromTonic: number, { mode }: Key): number {
  const { from, to } = usedFifths[mode];
  return Math.min(farthest, Math.max(0, from - fromTonic, fromTonic - to));
}

/** Places of a tonic on the line of fifths: spelled with few accidentals, then with flats and with sharps. */
export function tonicSpellings({ tonic }: Key): readonly [number, number, number] {
  const plain = ((7 * tonic + 5) % 12) - 5;
  return [plain, plain - 12, plain + 12];
}

/** How many fifths the spellings lie outside a key whose tonic is spelled so, added up. */
export function spellingOutside(spellings: readonly number[], key: Key, tonicFifths: number): number {
  return spellings.reduce((sum, fifths) => sum + fifthsOutside(fifths - tonicFifths, key), 0);
}

/** The same for the spelling of the tonic that suits best. */
function spellingCost(frame: HeardFrame, key: Key): number {
  const costs = tonicSpellings(key).map((tonic) => spellingOutside(frame.spellings, key, tonic));
  return Math.min(...costs);
}

/** Fifths between a key's own signature and a printed one, 0 to 6; 0 where none is known. */
export function fifthsFromSignature(key: Key, { fifths }: KeySignature): number {
  if (fifths === null) return 0;
  const steps = (((7 * relativeMajor(key) - fifths) % 12) + 12) % 12;
  return Math.min(steps, 12 - steps);
}

/** What a frame and the signature in force say against a key, in units. A silent frame leaves it to the signature. */
export function keyCost(
  frame: HeardFrame,
  signature: KeySignature,
  keyIndex: number,
  logs: LogTable,
  costs: KeyFitCosts,
): number {
  const key = allKeys[keyIndex] as Key;
  const profile = (profileCost(frame, logs[keyIndex] as Int32Array) * costs.profile) / 1000;
  const root = Math.sqrt(Math.max(1, frame.count));
  const spelling = (costs.spelling * spellingCost(frame, key)) / root;
  const printed = Math.min(costs.signatureLimit, costs.signature * fifthsFromSignature(key, signature));
  return Math.round(profile + spelling + printed);
}
