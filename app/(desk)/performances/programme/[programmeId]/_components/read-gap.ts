import { readClock } from "@/app/_ui/clock";

/** Longest gap that is stored, in seconds. */
const longestGap = 2 * 60 * 60;

/** "0:30", "1:15" or "45" (seconds, as one counts a pause) as seconds; 0 for an empty field; null for what is no gap. */
export function readGap(text: string): number | null {
  const typed = text.trim();
  if (typed === "") return 0;
  const seconds = /^\d{1,4}$/.test(typed) ? Number(typed) : readClock(typed);
  return seconds !== null && seconds <= longestGap ? seconds : null;
}
