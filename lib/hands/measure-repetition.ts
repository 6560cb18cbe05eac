/** How fast somebody struck a key again and again. */
export type RepetitionMeasure =
  | {
      readonly kind: "measured";
      /** Strokes a second, to the lower tenth: what is kept up, not the fastest two. */
      readonly perSecond: number;
      readonly strokes: number;
    }
  /** Fewer strokes than tell a rate. */
  | { readonly kind: "too few"; readonly strokes: number };

/** Two onsets closer than this are one stroke: a chord is never struck quite together. No action repeats so fast. */
const togetherMilliseconds = 45;
/** A gap this many times the usual one is a rest between two tries. */
const restFactor = 2.2;
/** So many strokes in one go tell a rate. Ours. */
const fewestStrokes = 8;

/**
 * The rate at which a key or a chord was struck again, from the moments at which keys went down. Rests between tries do not
 * count; the longest go does, and in it the strokes from first to last.
 *
 * @param onsets in milliseconds of one clock, in any order.
 * Source: a grand's action repeats 14 times a second at most, a finger or wrist about 5 to 7 (trade, common practice); the
 * bounds here are ours.
 */
export function measureRepetition(onsets: readonly number[]): RepetitionMeasure {
  const strokes = joinChords([...onsets].sort((a, b) => a - b));
  const gaps = strokes.slice(1).map((at, index) => at - (strokes[index] ?? at));
  const usual = median(gaps);
  const go = longestGo(strokes, usual * restFactor);
  if (go.length < fewestStrokes) return { kind: "too few", strokes: go.length };
  const seconds = ((go.at(-1) ?? 0) - (go[0] ?? 0)) / 1000;
  const perSecond = (go.length - 1) / seconds;
  return { kind: "measured", perSecond: Math.floor(perSecond * 10 + 1e-6) / 10, strokes: go.length };
}

function joinChords(onsets: readonly number[]): number[] {
  const strokes: number[] = [];
  for (const at of onsets) {
    const last = strokes.at(-1);
    if (last === undefined || at - last >= togetherMilliseconds) strokes.push(at);
  }
  return strokes;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}

function longestGo(strokes: readonly number[], mostGap: number): readonly number[] {
  let longest: readonly number[] = [];
  let from = 0;
  for (let index = 1; index <= strokes.length; index += 1) {
    const isOn = index < strokes.length && (strokes[index] ?? 0) - (strokes[index - 1] ?? 0) <= mostGap;
    if (isOn) continue;
    const go = strokes.slice(from, index);
    if (go.length > longest.length) longest = go;
    from = index;
  }
  return longest;
}
