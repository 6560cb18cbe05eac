/** A week in which a weekday names one day. */
const nearDays = 6;

/**
 * "14:05" today, "Tue 14:05" within a week, "Sun 22 Feb 14:05" before, with the year when it is another one.
 *
 * @param timeZone IANA name; the reader's own when it is not given.
 * @throws RangeError if `iso` is no date.
 */
export function sayMoment(iso: string, now: Date, timeZone?: string): string {
  const time = sayTime(iso, timeZone);
  const day = sayLocalDay(iso, now, timeZone);
  return day === "today" ? time : `${day} ${time}`;
}

/** "14:05". */
export function sayTime(iso: string, timeZone?: string): string {
  return part(new Date(iso), { hour: "2-digit", minute: "2-digit", hourCycle: "h23" }, timeZone);
}

/** "today", "Tue", "Sun 22 Feb", "22 Feb 2025". */
export function sayLocalDay(iso: string, now: Date, timeZone?: string): string {
  const at = new Date(iso);
  const dayOf = (date: Date) => part(date, { dateStyle: "short" }, timeZone);
  if (dayOf(at) === dayOf(now)) return "today";
  const age = now.getTime() - at.getTime();
  if (age >= 0 && age < nearDays * 86_400_000) return part(at, { weekday: "short" }, timeZone);
  const yearOf = (date: Date) => part(date, { year: "numeric" }, timeZone);
  const isThisYear = yearOf(at) === yearOf(now);
  const day = isThisYear
    ? part(at, { weekday: "short", day: "numeric", month: "short" }, timeZone)
    : part(at, { day: "numeric", month: "short", year: "numeric" }, timeZone);
  return day.replace(",", "");
}

/** By what they are asked for: to make one takes a hundred times as long as to use it. */
const formats = new Map<string, Intl.DateTimeFormat>();

function part(at: Date, options: Intl.DateTimeFormatOptions, timeZone: string | undefined): string {
  const name = JSON.stringify([options, timeZone ?? null]);
  const format = formats.get(name) ?? new Intl.DateTimeFormat("en-GB", { ...options, timeZone });
  formats.set(name, format);
  return format.format(at);
}
