import { addQuarters, isEqualQuarters, type Quarters } from "@/lib/score/quarters";

/** `actual` notes in the time of `normal`. */
export interface TupletRatio {
  readonly actual: number;
  readonly normal: number;
}

/** Neighbours of a voice that are written alike: outside any tuplet when there is no ratio. */
export interface ValueGroup<Timed> {
  readonly events: readonly Timed[];
  readonly ratio: TupletRatio | null;
}

interface TimedEvent {
  readonly at: Quarters;
  readonly length: Quarters;
}

/**
 * Finds the tuplets that the lengths of a voice ask for: each begins with the first note that no plain value can be and
 * ends as soon as a plain place is reached again, or where the voice pauses.
 *
 * @param events of one bar, in order.
 */
export function findTuplets<Timed extends TimedEvent>(events: readonly Timed[]): ValueGroup<Timed>[] {
  const groups: ValueGroup<Timed>[] = [];
  let open: Timed[] = [];
  const close = () => {
    if (open.length > 0) groups.push({ events: open, ratio: ratioOf(open) });
    open = [];
  };
  for (const event of events) {
    const last = open.at(-1);
    if (last && !isEqualQuarters(endOf(last), event.at)) close();
    open.push(event);
    if (isPlain(endOf(event))) close();
  }
  close();
  return groups;
}

const endOf = ({ at, length }: TimedEvent): Quarters => addQuarters(at, length);

/** The part of a denominator that halving cannot reach. */
function oddPart(value: number): number {
  let odd = value;
  while (odd % 2 === 0) odd /= 2;
  return odd;
}

const isPlain = (time: Quarters): boolean => oddPart(time.den) === 1;

function ratioOf(events: readonly TimedEvent[]): TupletRatio | null {
  const actual = events
    .flatMap(({ at, length }) => [oddPart(at.den), oddPart(length.den)])
    .reduce(leastCommon, 1);
  if (actual === 1) return null;
  // Common practice: 3 in the time of 2, 5 and 7 of 4, 9 to 15 of 8.
  let normal = 1;
  while (normal * 2 < actual) normal *= 2;
  return { actual, normal };
}

function leastCommon(a: number, b: number): number {
  let [x, y] = [a, b];
  while (y !== 0) [x, y] = [y, x % y];
  return (a / x) * b;
}
