/** Days of the calendar (ISO 8601), both included. */
export interface DaySpan {
  readonly from: string;
  readonly to: string;
}

/** A frozen edition and the day on which it was frozen. */
export interface FrozenOn {
  readonly number: number;
  /** ISO 8601. */
  readonly day: string;
}

/**
 * The editions that stood at some time of these days, the earliest first: the one that was frozen last before them, and
 * those that were frozen in them. An edition stands from the day it was frozen on until the day of the next. None when
 * nothing was frozen yet.
 */
export function findStanding(editions: readonly FrozenOn[], { from, to }: DaySpan): number[] {
  const inOrder = editions.toSorted((a, b) => a.number - b.number);
  const before = inOrder.filter(({ day }) => day < from).at(-1);
  const within = inOrder.filter(({ day }) => day >= from && day <= to);
  return [...(before ? [before] : []), ...within].map(({ number }) => number);
}

/** A day ("2026-05-14") or a month ("2026-05") as its days; null for any other text, and for days there are none of. */
export function readDaySpan(text: string): DaySpan | null {
  const match = /^(\d{4})-(\d{2})(?:-(\d{2}))?$/.exec(text);
  if (!match) return null;
  const [year, month, day] = match.slice(1).map(Number);
  if (year === undefined || month === undefined || month < 1 || month > 12) return null;
  const last = new Date(Date.UTC(year, month, 0)).getUTCDate();
  if (match[3] === undefined) return { from: `${text}-01`, to: `${text}-${last}` };
  return day !== undefined && day >= 1 && day <= last ? { from: text, to: text } : null;
}
