import {
  type CutRests,
  cutRests,
  findRestsAt,
  measureRest,
  type RestLeft,
  type RestReading,
} from "@/lib/score/rest-left";
import { partsOfABar } from "@/lib/score/silent-bars";
import { checkRestAmount, type RestAmount, type RestNeed } from "./rest-need";

/** A needed rest without and with cuts: the figures, not the verdict. */
export interface RestUnderCuts {
  readonly need: RestNeed;
  /** Of all times that the rest is played, the one in which least is left. Null when the soloist never rests there. */
  readonly before: RestLeft | null;
  readonly after: RestLeft | null;
  /** How many different rests it is, repeats taken. */
  readonly times: number;
  /** What is missing, in the unit of the need; 0 when there is enough. */
  readonly shortBefore: number;
  readonly shortAfter: number;
}

/** What is missing of an amount: seconds to the millisecond, or whole bars. */
function shortOf(needs: RestAmount, left: RestLeft | null): number {
  if ("seconds" in needs)
    return Math.max(0, Math.round(1000 * needs.seconds) - (left?.milliseconds ?? 0)) / 1000;
  const hasEnough = (left?.barParts ?? 0) >= Math.round(partsOfABar * needs.bars);
  return hasEnough ? 0 : needs.bars - (left?.barCount ?? 0);
}

/** @throws RangeError if the need lies outside the piece or asks for no amount. */
export function measureNeed(reading: RestReading, cut: CutRests, need: RestNeed): RestUnderCuts {
  checkRestAmount(need);
  const whole = cutRests(reading, []);
  const rests = findRestsAt(reading, need).map((silence) => ({
    before: measureRest(reading, whole, silence),
    after: measureRest(reading, cut, silence),
  }));
  const amount = (left: RestLeft) => ("seconds" in need.needs ? left.milliseconds : left.barParts);
  const [least = null] = rests.toSorted((a, b) => amount(a.after) - amount(b.after));
  return {
    need,
    before: least?.before ?? null,
    after: least?.after ?? null,
    times: rests.length,
    shortBefore: shortOf(need.needs, least?.before ?? null),
    shortAfter: shortOf(need.needs, least?.after ?? null),
  };
}
