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
export type Thresholds = Float64Array;

/** Ranges under way: thousands of short lists are united, so that the room for it is kept. */
class Ranges {
  private all = new Float64Array(256);
  private united = new Float64Array(256);
  private size = 0;

  /** @param room ranges that come closer become one: it need not be told where in it the lengths are. */
  constructor(private readonly room: number) {}

  begin(ranges: Thresholds): void {
    this.makeRoom(ranges.length);
    for (let at = 0; at < ranges.length; at += 1) this.all[at] = ranges[at] as number;
    this.size = ranges.length;
  }

  private makeRoom(size: number): void {
    if (size <= this.all.length) return;
    const all = new Float64Array(2 * size);
    all.set(this.all.subarray(0, this.size));
    [this.all, this.united] = [all, new Float64Array(2 * size)];
  }

  add(ranges: Thresholds): void {
    this.makeRoom(this.size + ranges.length);
    const { all, united, size, room } = this;
    const count = ranges.length;
    let [i, j, next, end] = [0, 0, 0, Number.NEGATIVE_INFINITY];
    while (i < size || j < count) {
      const isOld = j >= count || (i < size && (all[i] as number) <= (ranges[j] as number));
      const least = (isOld ? all[i] : ranges[j]) as number;
      const most = (isOld ? all[i + 1] : ranges[j + 1]) as number;
      if (isOld) i += 2;
      else j += 2;
      if (least > end + room) {
        united[next] = least;
        united[next + 1] = most;
        next += 2;
        end = most;
      } else if (most > end) {
        united[next - 1] = most;
        end = most;
      }
    }
    this.size = next;
    [this.all, this.united] = [united, all];
  }

  read(): Thresholds {
    return this.all.slice(0, this.size);
  }
}

/** What must have been silent already, when so much more silence is still to come. */
function earlier(ranges: Thresholds, toCome: number): Thresholds {
  if (toCome === 0) return ranges;
  const left = new Float64Array(ranges.length);
  let size = 0;
  for (let at = 0; at < ranges.length; at += 2) {
    const most = (ranges[at + 1] as number) - toCome;
    if (most <= 0) continue;
    left[size] = Math.max(1, (ranges[at] as number) - toCome);
    left[size + 1] = most;
    size += 2;
  }
  return left.subarray(0, size);
}

/**
 * How long a silence must have lasted at a place so that this or that way to go on leaves it long enough. Two silences with no
 * such length between them have the same future. What a cut leaves out neither lengthens nor shortens a silence, so the
 * lengths at its landing hold where it begins too.
 *
 * @param places in order.
 * @param end of the clock, where the last silence ends at the latest.
 * @param asked whatever may have to be left of a rest, as ranges.
 * @param room lengths that lie closer together are taken for a range, within which all silences are told apart.
 * @returns for each place lengths above 0.
 */
export function findThresholds(
  places: readonly ThresholdPlace[],
  end: number,
  asked: readonly (readonly [least: number, most: number])[],
  room: number,
): ReadonlyMap<number, Thresholds> {
  const found = new Map<number, Thresholds>();
  const ranges = new Ranges(room);
  for (const [least, most] of asked) if (most > 0) ranges.add(Float64Array.of(least, most));
  const atEnd = ranges.read();
  if (atEnd.length === 0) return found;
  let [next, nextClock] = [atEnd, end];
  for (const { place, clock, hasNote, landings } of places.toReversed()) {
    const onwards = hasNote ? atEnd : earlier(next, nextClock - clock);
    next = onwards;
    if (landings.length > 0) {
      ranges.begin(onwards);
      for (const landing of landings) ranges.add(found.get(landing) ?? noThresholds);
      next = ranges.read();
    }
    nextClock = clock;
    found.set(place, next);
  }
  return found;
}

export const noThresholds: Thresholds = new Float64Array(0);

/** The shortest length that reaches the same thresholds. */
export function reachThreshold(thresholds: Thresholds, length: number): number {
  let [low, high] = [0, thresholds.length / 2];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((thresholds[2 * middle] as number) <= length) low = middle + 1;
    else high = middle;
  }
  const most = low === 0 ? 0 : (thresholds[2 * low - 1] as number);
  return Math.min(length, most);
}

/** Whether a length that `reachThreshold` gave reaches them all. */
export const reachesAll = (thresholds: Thresholds, reached: number): boolean =>
  thresholds.length === 0 || reached === thresholds[thresholds.length - 1];
