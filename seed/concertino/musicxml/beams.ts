import { type Event, QUARTER, withOnsets } from "../event";

export type BeamState = "begin" | "continue" | "end" | "forward hook" | "backward hook";

/**
 * The beams of each event of a bar in 4/4, outermost first; empty where there is none.
 *
 * Groups are beats; four plain eighths in a half bar share one beam. Rests break a beam. Source: common practice.
 */
export function planBeams(bar: readonly Event[]): BeamState[][] {
  const levels = bar.map(beamLevels);
  const groups = groupNumbers(bar, levels);
  return bar.map((_, i) =>
    Array.from({ length: levels[i] ?? 0 }, (_, level) => stateAt(i, level + 1, levels, groups)).filter(
      (state): state is BeamState => state !== undefined,
    ),
  );
}

function beamLevels(event: Event): number {
  if (event.pitches.length === 0 || event.hidden) return 0;
  const levels = { whole: 0, half: 0, quarter: 0, eighth: 1, "16th": 2, "32nd": 3 };
  return levels[event.value.name];
}

/** Number of the beam group that each event belongs to; -1 where it has no flag or stands alone. */
function groupNumbers(bar: readonly Event[], levels: readonly number[]): number[] {
  const placed = withOnsets(bar);
  const halves = [0, 1].map((half) =>
    placed.filter(({ onset }) => Math.floor(onset / (2 * QUARTER)) === half),
  );
  const joined = halves.map((half) => half.length === 4 && half.every(({ event }) => isPlainEighth(event)));
  let group = 0;
  let before: string | undefined;
  const numbers = placed.map(({ onset }, i) => {
    if (!levels[i]) {
      before = undefined;
      return -1;
    }
    const half = Math.floor(onset / (2 * QUARTER));
    const key = joined[half] ? `half ${half}` : `beat ${Math.floor(onset / QUARTER)}`;
    if (key !== before) group++;
    before = key;
    return group;
  });
  return numbers.map((own) => (numbers.filter((other) => other === own).length > 1 ? own : -1));
}

function isPlainEighth(event: Event): boolean {
  return (
    event.pitches.length > 0 && event.value.name === "eighth" && !event.value.triplet && !event.value.dots
  );
}

function stateAt(
  i: number,
  level: number,
  levels: readonly number[],
  groups: readonly number[],
): BeamState | undefined {
  const group = groups[i];
  if (group === undefined || group < 0) return undefined;
  const inGroup = (at: number) => groups[at] === group;
  const hasLevel = (at: number) => inGroup(at) && (levels[at] ?? 0) >= level;
  const before = hasLevel(i - 1);
  const after = hasLevel(i + 1);
  if (before && after) return "continue";
  if (after) return "begin";
  if (before) return "end";
  return inGroup(i + 1) && !inGroup(i - 1) ? "forward hook" : "backward hook";
}
