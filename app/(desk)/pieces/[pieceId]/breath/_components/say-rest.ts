import type { CheckedNeed } from "@/lib/breath/check-rest-needs";
import type { RestAmount } from "@/lib/edition/rest-need";
import { sayBarCount } from "@/lib/score/say-bar-count";
import { sayClock } from "@/lib/score/say-clock";
import { sayAmount } from "./say-breath";

/** "0:03 short", "1 bar short"; null when nothing is missing, or nothing is asked any more. */
export function sayShort({ verdict, seconds, bars }: CheckedNeed): string | null {
  if (verdict === "no rest") return "no rest left";
  if (verdict !== "short" && verdict !== "short anyway") return null;
  const missing = seconds.needed !== null ? { seconds: seconds.shortBy } : { bars: bars.shortBy };
  return `${sayAmount(missing)} short${verdict === "short anyway" ? ", with or without cuts" : ""}`;
}

/** "0:20 wanted", "4 bars and 0:20 wanted". */
export function sayWanted(needs: readonly { readonly needs: RestAmount }[]): string {
  return `${needs.map((one) => sayAmount(one.needs)).join(" and ")} wanted`;
}

/** "0:44 (12 bars)". */
export function sayRest(seconds: number, bars: number): string {
  const counted = bars > 0 ? ` (${sayBarCount(bars)})` : "";
  return `${sayClock(seconds)}${counted}`;
}
