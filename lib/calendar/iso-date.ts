/** The day of a moment in UTC, "2026-11-26" (ISO 8601). A date without a time is kept as midnight UTC, and is that day. */
export function isoDateOf(moment: Date): string {
  return moment.toISOString().slice(0, 10);
}
