import { isEqualQuarters } from "@/lib/score/quarters";
import { type BarEvent, endOf, inOrder, isRest } from "../bar-event";

/** Events of one voice that follow one another without a gap and are equally long. */
export type Run = readonly BarEvent[];

/**
 * The longest runs in which each event goes on from the one before as `goesOn` says; those shorter than `least` events
 * are left out.
 */
export function findRuns(
  events: readonly BarEvent[],
  least: number,
  goesOn: (before: BarEvent, after: BarEvent) => boolean,
): Run[] {
  const runs: BarEvent[][] = [];
  for (const event of inOrder(events)) {
    const run = runs.at(-1);
    const last = run?.at(-1);
    if (run && last && isNext(last, event) && goesOn(last, event)) run.push(event);
    else runs.push([event]);
  }
  return runs.filter((run) => run.length >= least);
}

function isNext(before: BarEvent, after: BarEvent): boolean {
  return (
    before.staff === after.staff &&
    before.voice === after.voice &&
    !isRest(before) &&
    !isRest(after) &&
    before.tied.length === 0 &&
    isEqualQuarters(endOf(before), after.offset) &&
    isEqualQuarters(before.length, after.length)
  );
}

/** The events with each run replaced. */
export function replaceRuns(
  events: readonly BarEvent[],
  runs: readonly Run[],
  replace: (run: Run) => readonly BarEvent[],
): BarEvent[] {
  const gone = new Set(runs.flat());
  return inOrder([...events.filter((event) => !gone.has(event)), ...runs.flatMap(replace)]);
}
