import { addQuarters } from "@/lib/score/quarters";
import { type BarEvent, isOnMultiple, isSameChord, upperStaff } from "../bar-event";
import type { Operator } from "./operator";
import { findRuns, type Run, replaceRuns } from "./runs";

const handOf = (staff: number) => (staff === upperStaff ? "" : " of the left hand");

/** Every other stroke of repeated notes, chords or octaves. */
export function halfRate(staff: number): Operator {
  return {
    words: `every other stroke${handOf(staff)}`,
    apply: (events) => {
      const runs = findRuns(
        events.filter((event) => event.staff === staff),
        4,
        isSameChord,
      );
      return runs.length === 0 ? null : replaceRuns(events, runs, everyOther);
    },
  };
}

/** Of a run of single notes the outline: every other note, twice as long. */
export function outlineRun(staff: number): Operator {
  const goesOn = (a: BarEvent, b: BarEvent) =>
    a.pitches.length === 1 && b.pitches.length === 1 && !isSameChord(a, b);
  return {
    words: `the outline of the run${handOf(staff)}`,
    apply: (events) => {
      const runs = findRuns(
        events.filter((event) => event.staff === staff),
        6,
        goesOn,
      );
      return runs.length === 0 ? null : replaceRuns(events, runs, everyOther);
    },
  };
}

/** Repeated inner chords on the beat only. */
export function onTheBeat(staff: number): Operator {
  return {
    words: `repeated chords on the beat only${handOf(staff)}`,
    apply: (events, { beat }) => {
      const runs = findRuns(
        events.filter((event) => event.staff === staff),
        3,
        isSameChord,
      );
      const wanted = runs.filter((run) => run.some((event) => !isOnMultiple(event.offset, beat)));
      return wanted.length === 0
        ? null
        : replaceRuns(events, wanted, (run) => joinBetween(run, (event) => isOnMultiple(event.offset, beat)));
    },
  };
}

/** Strokes counted from the first; those in between go on sounding. */
function everyOther(run: Run): BarEvent[] {
  return joinBetween(run, (_event, index) => index % 2 === 0);
}

function joinBetween(run: Run, isStruck: (event: BarEvent, index: number) => boolean): BarEvent[] {
  const struck: BarEvent[] = [];
  for (const [index, event] of run.entries()) {
    const last = struck.at(-1);
    if (!last || isStruck(event, index) || event.isAccented) struck.push(event);
    else struck[struck.length - 1] = { ...last, length: addQuarters(last.length, event.length) };
  }
  return struck;
}
