/** A place at which something happens while a stage is read, with the clock that a silence is measured by. */
export interface ThresholdPlace {
  readonly place: number;
  /** Of the clock in question; never smaller than at the place before. */
  readonly clock: number;
  /** Whether the soloist plays here, so that a silence ends for all who are not over it in a cut. */
  readonly hasNote: boolean;
  /** Where the cuts that begin here land. */
  readonly landings: readonly number[];
}

/**
 * Ranges of lengths of a silence, ascending, with room between them: least and most of the first, least and most of the
 * second, and so on. Both ends are included.
 */
export type Thresholds = readonly number[];

/** Ranges that come closer than `room` become one: it need not be told where in it the lengths are. */
function unite(a: Thresholds, b: Thresholds, room: number): Thresholds {
  if (a.length === 0 || a === b) return b;
  if (b.length === 0) return a;
  const united: number[] = [];
  let [i, j, end] = [0, 0, Number.NEGATIVE_INFINITY];
  while (i < a.length || j < b.length) {
    const isLeft = j >= b.length || (i < a.length && (a[i] as number) <= (b[j] as number));
    const [from, at] = isLeft ? [a, i] : [b, j];
    if (isLeft) i += 2;
    else j += 2;
    const most = from[at + 1] as number;
    if ((from[at] as number) > end + room) united.push(from[at] as number, most);
    else if (most > end) united[united.length - 1] = most;
    end = Math.max(end, most);
  }
  return united;
}

/** What must have been silent already, when so much more silence is still to come. */
function earlier(ranges: Thresholds, toCome: number): Thresholds {
  if (toCome === 0) return ranges;
  const left: number[] = [];
  for (let at = 0; at < ranges.length; at += 2) {
    const most = (ranges[at + 1] as number) - toCome;
    if (most > 0) left.push(Math.max(1, (ranges[at] as number) - toCome), most);
  }
  return left;
}

/**
 * How long a silence must have lasted at a place so that this or that way to go on leaves it long enough. Two silences with no
 * such length between them have the same future. What a cut leaves out neither lengthens nor shortens a silence, so the
 * lengths at its landing hold where it begins too.
 *
 * @param places in order.
 * @param end of the clock, where the last silence ends at the latest.
 * @param asked whatever may have to be left of a rest.
 * @param room lengths that lie closer together are taken for a range, within which all silences are told apart.
 * @returns for each place lengths above 0.
 */
export function findThresholds(
  places: readonly ThresholdPlace[],
  end: number,
  asked: readonly number[],
  room: number,
): ReadonlyMap<number, Thresholds> {
  const atEnd = asked
    .filter((amount) => amount > 0)
    .reduce<Thresholds>((all, amount) => unite(all, [amount, amount], room), []);
  const found = new Map<number, Thresholds>();
  if (atEnd.length === 0) return found;
  let [next, nextClock] = [atEnd, end];
  for (const { place, clock, hasNote, landings } of places.toReversed()) {
    const onwards = hasNote ? atEnd : earlier(next, nextClock - clock);
    next = landings.reduce((all, landing) => unite(all, found.get(landing) ?? [], room), onwards);
    nextClock = clock;
    found.set(place, next);
  }
  return found;
}

/** The shortest length that reaches the same thresholds; and whether it reaches them all. */
export function reachThreshold(thresholds: Thresholds, length: number) {
  let [low, high] = [0, thresholds.length / 2];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((thresholds[2 * middle] as number) <= length) low = middle + 1;
    else high = middle;
  }
  const most = thresholds[2 * low - 1] ?? 0;
  const isWithin = length < most;
  return { reached: isWithin ? length : most, reachesAll: 2 * low === thresholds.length && !isWithin };
}
