const day = new Intl.DateTimeFormat("en-GB", {
  weekday: "short",
  day: "numeric",
  month: "short",
  timeZone: "UTC",
});
const dayAndYear = new Intl.DateTimeFormat("en-GB", {
  day: "numeric",
  month: "short",
  year: "numeric",
  timeZone: "UTC",
});

/**
 * "Sun 22 Feb", with the year when it is not the year of `now`. In UTC, so that the server and the browser write the same.
 *
 * @throws RangeError if `iso` is no date.
 */
export function sayDay(iso: string, now: Date): string {
  const date = new Date(iso);
  const format = date.getUTCFullYear() === now.getUTCFullYear() ? day : dayAndYear;
  return format.format(date).replace(",", "");
}

const wholeDay = new Intl.DateTimeFormat("en-GB", {
  day: "numeric",
  month: "long",
  year: "numeric",
  timeZone: "UTC",
});
const month = new Intl.DateTimeFormat("en-GB", { month: "long", year: "numeric", timeZone: "UTC" });

/** "14 May 2026". In UTC, as `sayDay`. */
export function sayWholeDay(iso: string): string {
  return wholeDay.format(new Date(iso));
}

/** "May 2026". In UTC. */
export function sayMonth(iso: string): string {
  return month.format(new Date(iso));
}
