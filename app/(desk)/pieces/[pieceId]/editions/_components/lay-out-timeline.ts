/** Something with a moment and words beside its sign. */
export interface TimelineItem {
  readonly id: string;
  /** ISO 8601. */
  readonly at: string;
  /** Width of its sign. */
  readonly sign: number;
  /** Its longest line. */
  readonly words: string;
}

export interface PlacedItem<Item> {
  readonly item: Item;
  /** Where its moment lies on the line. */
  readonly x: number;
  /** Middle of its sign, moved aside where two would overlap. */
  readonly signX: number;
}

export interface Timeline<Above, Below> {
  readonly width: number;
  readonly nowX: number;
  /** Months; for a piece of a few weeks, Mondays. */
  readonly ticks: readonly { readonly x: number; readonly text: string }[];
  readonly above: readonly PlacedItem<Above>[];
  readonly below: readonly PlacedItem<Below>[];
}

/** Mean width of a letter of the 13 px words, measured on the font in use. */
const letterPixels = 6.9;
const wordsAfterSign = 8;
const between = 18;
/** Room for the words of a tick, right of it. */
const tickRoom = 64;
const dayMilliseconds = 86_400_000;

/** Room that one item takes, sign and words. */
function roomOf({ sign, words }: TimelineItem): number {
  return sign + wordsAfterSign + words.length * letterPixels;
}

/** The least width at which nothing overlaps. */
export function leastWidth(items: readonly TimelineItem[]): number {
  return items.reduce((sum, item) => sum + roomOf(item) + between, 0);
}

/**
 * Editions above a line of days and performances below it.
 *
 * @param now ISO 8601; what lies behind it is drawn solid.
 * @param width of the place; the drawing is wider when its words need it.
 */
export function layOutTimeline<Above extends TimelineItem, Below extends TimelineItem>(
  above: readonly Above[],
  below: readonly Below[],
  now: string,
  width: number,
): Timeline<Above, Below> {
  const whole = Math.max(width, leastWidth(above), leastWidth(below));
  const moments = [now, ...[...above, ...below].map(({ at }) => at)].map((at) => Date.parse(at));
  const [from, to] = [Math.min(...moments), Math.max(...moments)];
  const margin = Math.max(3 * dayMilliseconds, (to - from) * 0.05);
  const days = { from: from - margin, to: to + margin * 2 };
  const x = (at: number) => ((at - days.from) / (days.to - days.from)) * whole;
  return {
    width: whole,
    nowX: x(Date.parse(now)),
    ticks: ticksBetween(days.from, days.to)
      .map(({ at, text }) => ({ x: x(at), text }))
      .filter((tick) => tick.x + tickRoom < whole),
    above: place(above, x, whole),
    below: place(below, x, whole),
  };
}

/** Each sign at its moment, pushed right past the one before, then left where the end has no room. */
function place<Item extends TimelineItem>(
  items: readonly Item[],
  x: (at: number) => number,
  width: number,
): PlacedItem<Item>[] {
  const placed = items
    .map((item) => ({ item, x: x(Date.parse(item.at)), left: 0 }))
    .sort((a, b) => a.x - b.x);
  let end = -between;
  for (const one of placed) {
    one.left = Math.max(one.x - one.item.sign / 2, end + between);
    end = one.left + roomOf(one.item);
  }
  let limit = width;
  for (const one of placed.toReversed()) {
    one.left = Math.max(0, Math.min(one.left, limit - roomOf(one.item)));
    limit = one.left - between;
  }
  return placed.map(({ item, x: at, left }) => ({ item, x: at, signX: left + item.sign / 2 }));
}

const weekMilliseconds = 7 * dayMilliseconds;
const dayAndMonth = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", timeZone: "UTC" });

function ticksBetween(from: number, to: number): { at: number; text: string }[] {
  return to - from > 75 * dayMilliseconds ? monthsBetween(from, to) : mondaysBetween(from, to);
}

function mondaysBetween(from: number, to: number): { at: number; text: string }[] {
  // The first of January 1970 was a Thursday, so that the fifth was a Monday.
  const fifth = 4 * dayMilliseconds;
  const mondays: { at: number; text: string }[] = [];
  const first = fifth + Math.ceil((from - fifth) / weekMilliseconds) * weekMilliseconds;
  for (let at = first; at < to; at += weekMilliseconds) mondays.push({ at, text: dayAndMonth.format(at) });
  return mondays;
}

const monthName = new Intl.DateTimeFormat("en-GB", { month: "short", timeZone: "UTC" });

/** The first day of each month inside the span; the first one drawn, and each January, with its year. */
function monthsBetween(from: number, to: number): { at: number; text: string }[] {
  const start = new Date(from);
  const months: { at: number; text: string }[] = [];
  for (let month = start.getUTCMonth() + 1; ; month += 1) {
    const at = Date.UTC(start.getUTCFullYear(), month, 1);
    if (at >= to) return months;
    const date = new Date(at);
    const year = months.length === 0 || date.getUTCMonth() === 0 ? ` ${date.getUTCFullYear()}` : "";
    months.push({ at, text: `${monthName.format(date)}${year}` });
  }
}
