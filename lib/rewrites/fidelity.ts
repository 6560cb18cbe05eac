import type { RewritePitch } from "@/lib/edition/rewrite-terms";
import {
  addQuarters,
  compareQuarters,
  isEqualQuarters,
  noQuarters,
  type Quarters,
  writeQuarters,
} from "@/lib/score/quarters";
import { type BarEvent, endOf, isRest, midiOf, soundedBy } from "./bar-event";

/** How many of so many are kept. */
export interface Kept {
  readonly kept: number;
  readonly of: number;
}

/** What of the printed bars is still heard in a rewrite. */
export interface Fidelity {
  /** The lowest note, at each onset of the print. */
  readonly bass: Kept;
  /** The highest note, at each onset of the print. */
  readonly topLine: Kept;
  /** Pitch classes, beat by beat. */
  readonly harmony: Kept;
  readonly accents: Kept;
  /** Onsets; a tremolo keeps those that it covers. */
  readonly rhythm: Kept;
  /** Keys that sound, at each onset of the print. */
  readonly keys: Kept;
}

const nothing: Kept = { kept: 0, of: 0 };
const add = (a: Kept, b: Kept): Kept => ({ kept: a.kept + b.kept, of: a.of + b.of });
const share = ({ kept, of }: Kept): number => (of === 0 ? 1 : kept / of);

export const wholeFidelity: Fidelity = {
  bass: nothing,
  topLine: nothing,
  harmony: nothing,
  accents: nothing,
  rhythm: nothing,
  keys: nothing,
};

export function addFidelity(a: Fidelity, b: Fidelity): Fidelity {
  return {
    bass: add(a.bass, b.bass),
    topLine: add(a.topLine, b.topLine),
    harmony: add(a.harmony, b.harmony),
    accents: add(a.accents, b.accents),
    rhythm: add(a.rhythm, b.rhythm),
    keys: add(a.keys, b.keys),
  };
}

/**
 * What a listener loses, 0 for nothing: bass and top line weigh 5 each, pitch classes and accents 3, inner rhythm 1,
 * doublings 0.5. The order is common practice (bass, melody and rhythm are left out last); the weights are ours.
 */
export function lossOf({ bass, topLine, harmony, accents, rhythm, keys }: Fidelity): number {
  const lost = (weight: number, kept: Kept) => weight * (1 - share(kept));
  return (
    lost(5, bass) + lost(5, topLine) + lost(3, harmony) + lost(3, accents) + lost(1, rhythm) + lost(0.5, keys)
  );
}

/**
 * Compares a bar as it is printed with a rewrite of it.
 *
 * @param beats where its beats begin.
 */
export function compareBar(
  printed: readonly BarEvent[],
  written: readonly BarEvent[],
  beats: readonly Quarters[],
): Fidelity {
  const onsets = onsetsOf(printed);
  let fidelity = wholeFidelity;
  for (const onset of onsets) fidelity = addFidelity(fidelity, atOnset(printed, written, onset));
  for (const [index, beat] of beats.entries()) {
    fidelity = {
      ...fidelity,
      harmony: add(fidelity.harmony, inBeat(printed, written, beat, beats[index + 1] ?? null)),
    };
  }
  return fidelity;
}

function onsetsOf(events: readonly BarEvent[]): Quarters[] {
  const onsets = new Map(
    events.filter((event) => !isRest(event)).map(({ offset }) => [writeQuarters(offset), offset]),
  );
  return [...onsets.values()].sort(compareQuarters);
}

const soundsAt = (event: BarEvent, at: Quarters) =>
  compareQuarters(event.offset, at) <= 0 && compareQuarters(at, endOf(event)) < 0;

function keysAt(events: readonly BarEvent[], at: Quarters): number[] {
  const keys = new Set(
    events.filter((event) => soundsAt(event, at)).flatMap((event) => soundedBy(event).map(midiOf)),
  );
  return [...keys].sort((a, b) => a - b);
}

function atOnset(printed: readonly BarEvent[], written: readonly BarEvent[], onset: Quarters): Fidelity {
  const [before, after] = [keysAt(printed, onset), keysAt(written, onset)];
  const one = (isKept: boolean): Kept => ({ kept: Number(isKept), of: 1 });
  const begins = (event: BarEvent) => isEqualQuarters(event.offset, onset) && !isRest(event);
  const isAccented = printed.some((event) => begins(event) && event.isAccented);
  const [lowest, highest] = [before[0], before.at(-1)];
  const rocked = (key: number | undefined) => rockedWith(written, onset, key);
  return {
    bass: one(lowest === withoutOthers(after, lowest, rocked)[0]),
    topLine: one(highest === withoutOthers(after, highest, rocked).at(-1)),
    harmony: nothing,
    accents: isAccented ? one(written.some((event) => begins(event) && event.isAccented)) : nothing,
    rhythm: one(written.some((event) => begins(event) || (event.tremolo !== null && soundsAt(event, onset)))),
    keys: { kept: before.filter((key) => after.includes(key)).length, of: before.length },
  };
}

/** Keys that take turns with this one in a tremolo to and fro, so that it is still heard at an end by itself. */
function rockedWith(events: readonly BarEvent[], at: Quarters, key: number | undefined): Set<number> {
  const others = new Set<number>();
  for (const event of events) {
    if (event.tremolo === null || !soundsAt(event, at)) continue;
    const sides = [event.pitches, event.tremolo.other].map((side) => side.map(midiOf));
    const [own, other] = sides[0]?.includes(key ?? -1) ? sides : sides.toReversed();
    if (!own?.includes(key ?? -1)) continue;
    for (const each of other ?? []) if (!own.includes(each)) others.add(each);
  }
  return others;
}

const withoutOthers = (
  keys: readonly number[],
  key: number | undefined,
  rocked: (key: number | undefined) => Set<number>,
): readonly number[] => {
  const others = rocked(key);
  return others.size === 0 ? keys : keys.filter((each) => !others.has(each));
};

function inBeat(
  printed: readonly BarEvent[],
  written: readonly BarEvent[],
  from: Quarters,
  to: Quarters | null,
): Kept {
  const classes = (events: readonly BarEvent[]) => {
    const heard = events.filter(
      (event) =>
        compareQuarters(endOf(event), from) > 0 && (to === null || compareQuarters(event.offset, to) < 0),
    );
    return new Set(heard.flatMap((event) => soundedBy(event).map(classOf)));
  };
  const [before, after] = [classes(printed), classes(written)];
  return { kept: [...before].filter((each) => after.has(each)).length, of: before.size };
}

const classOf = (pitch: RewritePitch): number => ((midiOf(pitch) % 12) + 12) % 12;

/** Where the beats of a bar begin. @param beat positive. */
export function beatsOf(barLength: Quarters, beat: Quarters): Quarters[] {
  const beats: Quarters[] = [];
  for (let at = noQuarters; compareQuarters(at, barLength) < 0; at = addQuarters(at, beat)) beats.push(at);
  return beats;
}
