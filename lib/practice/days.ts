import { z } from "zod";

/** A day of the calendar: "2027-02-14". */
export const daySchema = z.iso.date("A date is written as year, month and day.");

const dayMilliseconds = 86_400_000;

/** Days since 1 January 1970. @throws RangeError if it is no date. */
function dayNumber(day: string): number {
  if (!daySchema.safeParse(day).success) throw new RangeError(`Not a day: ${day}`);
  return Date.parse(`${day}T00:00:00Z`) / dayMilliseconds;
}

/** How many days the second is after the first; negative when before. Summer time does not count. */
export function daysBetween(from: string, to: string): number {
  return dayNumber(to) - dayNumber(from);
}

/** The day so many days later. */
export function dayAfter(day: string, count: number): string {
  return new Date((dayNumber(day) + count) * dayMilliseconds).toISOString().slice(0, 10);
}

/** The day on which a moment lies on this device. */
export function localDay(moment: Date): string {
  const two = (value: number) => `${value}`.padStart(2, "0");
  return `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
}
