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

/** Both lists ascending, without doubles. */
function unite(a: readonly number[], b: readonly number[]): readonly number[] {
  if (a.length === 0 || a === b) return b;
  if (b.length === 0) return a;
  const united: number[] = [];
  let [i, j] = [0, 0];
  while (i < a.length || j < b.length) {
    const [left, right] = [a[i] ?? Number.POSITIVE_INFINITY, b[j] ?? Number.POSITIVE_INFINITY];
    united.push(Math.min(left, right));
    if (left <= right) i += 1;
    if (right <= left) j += 1;
  }
  return united;
}

/** What must have been silent already, when so much more silence is still to come. */
function earlier(lengths: readonly number[], toCome: number): readonly number[] {
  if (toCome === 0) return lengths;
  return lengths.filter((length) => length > toCome).map((length) => length - toCome);
}

/**
 * How long a silence must have lasted at a place so that this or that way to go on leaves it long enough. Two silences with no
 * such length between them have the same future. What a cut leaves out neither lengthens nor shortens a silence, so the
 * lengths at its landing hold where it begins too.
 *
 * @param places in order.
 * @param end of the clock, where the last silence ends at the latest.
 * @param asked whatever may have to be left of a rest.
 * @returns for each place lengths above 0, ascending.
 */
export function findThresholds(
  places: readonly ThresholdPlace[],
  end: number,
  asked: readonly number[],
): ReadonlyMap<number, readonly number[]> {
  const atEnd = [...new Set(asked)].filter((amount) => amount > 0).sort((a, b) => a - b);
  const found = new Map<number, readonly number[]>();
  let [next, nextClock]: [readonly number[], number] = [atEnd, end];
  for (const { place, clock, hasNote, landings } of places.toReversed()) {
    const onwards = hasNote ? atEnd : earlier(next, nextClock - clock);
    next = landings.reduce((all, landing) => unite(all, found.get(landing) ?? []), onwards);
    nextClock = clock;
    found.set(place, next);
  }
  return found;
}

/** The greatest threshold that a length reaches, 0 when none; and whether it reaches them all. */
export function reachThreshold(thresholds: readonly number[], length: number) {
  let [low, high] = [0, thresholds.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((thresholds[middle] as number) <= length) low = middle + 1;
    else high = middle;
  }
  return { reached: thresholds[low - 1] ?? 0, reachesAll: low === thresholds.length };
}
