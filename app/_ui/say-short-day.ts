const shortDay = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", timeZone: "UTC" });

/** "22 Feb", where the year stands beside it or goes without saying. In UTC, as `sayDay`. */
export function sayShortDay(iso: string): string {
  return shortDay.format(new Date(iso));
}
