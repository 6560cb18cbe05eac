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

/** Lengths of a silence, both ends included. */
export interface LengthRange {
  readonly least: number;
  readonly most: number;
}

/** Ascending, with room between them. */
export type Thresholds = readonly LengthRange[];

/** Ranges that come closer than `room` become one: it need not be told where in it the lengths are. */
function unite(a: Thresholds, b: Thresholds, room: number): Thresholds {
  if (a.length === 0 || a === b) return b;
  if (b.length === 0) return a;
  const united: LengthRange[] = [];
  let [i, j] = [0, 0];
  while (i < a.length || j < b.length) {
    const [left, right] = [a[i], b[j]];
    const isLeft = left !== undefined && (right === undefined || left.least <= right.least);
    const next = (isLeft ? left : right) as LengthRange;
    if (isLeft) i += 1;
    else j += 1;
    const last = united.at(-1);
    if (!last || next.least > last.most + room) united.push(next);
    else if (next.most > last.most) united[united.length - 1] = { least: last.least, most: next.most };
  }
  return united;
}

/** What must have been silent already, when so much more silence is still to come. */
function earlier(ranges: Thresholds, toCome: number): Thresholds {
  if (toCome === 0) return ranges;
  return ranges
    .filter(({ most }) => most > toCome)
    .map(({ least, most }) => ({ least: Math.max(1, least - toCome), most: most - toCome }));
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
    .reduce<Thresholds>((all, amount) => unite(all, [{ least: amount, most: amount }], room), []);
  const found = new Map<number, Thresholds>();
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
  let [low, high] = [0, thresholds.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((thresholds[middle] as LengthRange).least <= length) low = middle + 1;
    else high = middle;
  }
  const last = thresholds[low - 1];
  const isWithin = last !== undefined && length < last.most;
  return {
    reached: isWithin ? length : (last?.most ?? 0),
    reachesAll: low === thresholds.length && !isWithin,
  };
}
