import type { BarPlan, PlacedDynamic } from "../compose";
import { type Line, withOnsets } from "../event";
import type { PlacedMark } from "./directions";

/**
 * The orchestra's dynamics as one part prints them: a level where the part plays, or at its next entry when it
 * rests there; not the same level twice running; hairpins only where the part plays. A level written in the part
 * itself goes before the orchestra's.
 *
 * @returns marks by bar.
 */
export function dynamicsForPart(
  bars: readonly BarPlan[],
  line: Line,
  dynamics: readonly PlacedDynamic[],
): PlacedMark[][] {
  const marks: PlacedMark[][] = bars.map(() => []);
  let pending: string | undefined;
  let printed: string | undefined;
  let isOpen = false;
  bars.forEach((_, bar) => {
    const here = dynamics.filter((dynamic) => dynamic.bar === bar);
    const ticks = new Set([...here.map(({ tick }) => tick), ...attacks(line, bar)]);
    for (const tick of [...ticks].sort((a, b) => a - b)) {
      for (const { sign } of here.filter((dynamic) => dynamic.tick === tick)) {
        if (sign.kind === "level") pending = sign.text;
        else if (sign.type === "stop" ? isOpen : isPlaying(line, bar, tick)) {
          marks[bar]?.push({ tick, mark: { kind: "wedge", type: sign.type } });
          isOpen = sign.type !== "stop";
          if (!isOpen) printed = undefined;
        }
      }
      const own = ownLevel(line, bar, tick);
      if (own) {
        printed = own;
        pending = undefined;
      } else if (pending && isPlaying(line, bar, tick)) {
        if (pending !== printed) marks[bar]?.push({ tick, mark: { kind: "dynamic", text: pending } });
        printed = pending;
        pending = undefined;
      }
    }
  });
  return marks;
}

function attacks(line: Line, bar: number): number[] {
  return withOnsets(line[bar] ?? [])
    .filter(({ event }) => event.pitches.length > 0)
    .map(({ onset }) => onset);
}

function isPlaying(line: Line, bar: number, tick: number): boolean {
  return withOnsets(line[bar] ?? []).some(
    ({ event, onset }) => event.pitches.length > 0 && onset <= tick && tick < onset + event.ticks,
  );
}

function ownLevel(line: Line, bar: number, tick: number): string | undefined {
  const own = withOnsets(line[bar] ?? []).find(({ onset }) => onset === tick)?.event.marks;
  const level = own?.find((mark) => mark.kind === "dynamic");
  return level?.kind === "dynamic" ? level.text : undefined;
}
