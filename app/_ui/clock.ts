import { sayClock } from "@/lib/score/say-clock";

/** Reads "12:08", "1:02:30" or "12" (minutes) as seconds; null for any other text. */
export function readClock(text: string): number | null {
  const match = /^\s*(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)\s*$/.exec(text);
  if (match) return Number(match[1] ?? 0) * 3600 + Number(match[2]) * 60 + Number(match[3]);
  const minutes = /^\s*(\d{1,3})\s*$/.exec(text);
  return minutes ? Number(minutes[1]) * 60 : null;
}

/** "0:08 over", "0:18 to spare", "exactly on it": a running time against its limit, both in seconds. */
export function sayAgainstLimit(runningSeconds: number, limitSeconds: number): string {
  const over = Math.round(runningSeconds) - Math.round(limitSeconds);
  if (over === 0) return "exactly on the limit";
  return over > 0 ? `${sayClock(over)} over` : `${sayClock(-over)} to spare`;
}
