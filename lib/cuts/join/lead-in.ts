import { beatOf } from "@/lib/score/beat-of";
import type { CutSpan } from "@/lib/score/cut-span";
import { onsetOf } from "@/lib/score/onset-of";
import {
  addQuarters,
  compareQuarters,
  isEqualQuarters,
  type Quarters,
  scaleQuarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import { writtenSeconds } from "@/lib/score/written-seconds";
import type { Heard } from "./listen";
import { nextEntry, type SoloStretch, soloAt } from "./solo-stretches";

/** What must stay before an entry: the longer of the two. Source: common practice (a running start of 2 to 8 bars). */
export const leadInBars = 4;
export const leadInSeconds = 6;

/** The music between a landing and the soloist's next entry. */
export interface LeadIn {
  readonly entry: SoloStretch;
  readonly quarters: Quarters;
  readonly seconds: number;
  /** Four bars of the metre at the entry. */
  readonly least: Quarters;
  readonly isLongEnough: boolean;
}

function barAt({ score }: Heard, time: Quarters) {
  return score.bars.findLast(({ start }) => compareQuarters(start, time) <= 0);
}

/** Written time of the soloist's next entry; null when the soloist plays at the place, or enters no more. */
export function leadInEnd(heard: Heard, time: Quarters): Quarters | null {
  const bar = barAt(heard, time);
  if (!bar || soloAt(heard.solo, time)) return null;
  return nextEntry(heard.solo, time, beatOf(bar.metre))?.from ?? null;
}

/** Four bars, of which an upbeat of the soloist's may take up to half a bar, and six seconds. */
export function isLongEnough(heard: Heard, time: Quarters, entry: Quarters): boolean {
  const metre = barAt(heard, entry)?.metreLength;
  if (!metre) return true;
  const least = scaleQuarters(metre, 2 * leadInBars - 1, 2);
  const isLong = compareQuarters(subtractQuarters(entry, time), least) >= 0;
  return isLong && writtenSeconds(heard.map, time, entry) >= leadInSeconds;
}

/** Null when the soloist plays at the landing, or enters no more. */
export function findLeadIn(heard: Heard, toTime: Quarters): LeadIn | null {
  const end = leadInEnd(heard, toTime);
  const entry = heard.solo.find(({ from }) => end !== null && isEqualQuarters(from, end));
  const metre = end && barAt(heard, end)?.metreLength;
  if (!end || !entry || !metre) return null;
  return {
    entry,
    quarters: subtractQuarters(end, toTime),
    seconds: writtenSeconds(heard.map, toTime, end),
    least: scaleQuarters(metre, leadInBars),
    isLongEnough: isLongEnough(heard, toTime, end),
  };
}

/** The soloist's rest that a cut lies in or touches, in written time; null when the soloist plays through it. */
export interface RestLeft {
  readonly before: Quarters;
  readonly after: Quarters;
  readonly secondsBefore: number;
  readonly secondsAfter: number;
}

/** Rest before the entry that follows a cut, as it is and as it would be; null when no rest touches the cut. */
export function findRestLeft(heard: Heard, cut: CutSpan): RestLeft | null {
  const [from, to] = [onsetOf(heard.score, cut.from), onsetOf(heard.score, cut.to)];
  const next = heard.solo.find((stretch) => compareQuarters(stretch.from, to) >= 0);
  const last = heard.solo.findLast((stretch) => compareQuarters(stretch.to, from) <= 0);
  const isPlaying = heard.solo.some(
    (stretch) => compareQuarters(stretch.from, to) < 0 && compareQuarters(stretch.to, from) > 0,
  );
  if (!next || isPlaying) return null;
  const start = last?.to ?? subtractQuarters(from, from);
  const seconds = (a: Quarters, b: Quarters) => writtenSeconds(heard.map, a, b);
  return {
    before: subtractQuarters(next.from, start),
    after: addQuarters(subtractQuarters(from, start), subtractQuarters(next.from, to)),
    secondsBefore: seconds(start, next.from),
    secondsAfter: seconds(start, from) + seconds(to, next.from),
  };
}

/** Ids of the soloist's stretches that a cut takes or tears. */
export function soloTaken(heard: Heard, from: Quarters, to: Quarters): SoloStretch[] {
  return heard.solo.filter(
    (stretch) => compareQuarters(stretch.from, to) < 0 && compareQuarters(stretch.to, from) > 0,
  );
}
