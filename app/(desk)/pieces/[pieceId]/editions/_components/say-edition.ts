import type { Side } from "@/app/_data/editions/editions-view";
import { sayClock } from "@/lib/score/say-clock";

/** "no cuts", "1 cut", "3 cuts". */
export function sayCutCount(count: number): string {
  if (count === 0) return "no cuts";
  return count === 1 ? "1 cut" : `${count} cuts`;
}

/** "12:17, 1 cut"; without its time when that can no longer be measured. */
export function saySideShort({ seconds, cutCount }: Side): string {
  return seconds === null ? sayCutCount(cutCount) : `${sayClock(seconds)}, ${sayCutCount(cutCount)}`;
}

/** "4 changes, 0:09 shorter". */
export function sayChanges(count: number, secondsLonger: number): string {
  if (count === 0) return "nothing changed";
  const changes = count === 1 ? "1 change" : `${count} changes`;
  const time = sayClock(Math.abs(secondsLonger));
  if (time === sayClock(0)) return `${changes}, as long as before`;
  return `${changes}, ${time} ${secondsLonger < 0 ? "shorter" : "longer"}`;
}

/** "1 answer is open", "2 answers are open". */
export function sayOpen(count: number): string {
  return count === 1 ? "1 answer is open" : `${count} answers are open`;
}
