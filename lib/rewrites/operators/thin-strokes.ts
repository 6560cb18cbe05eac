import { addQuarters } from "@/lib/score/quarters";
import { type BarEvent, isOnMultiple, isSameChord } from "../bar-event";
import { eventsOfHand, type Hand, type Operator } from "./operator";
import { findRuns, type Run, replaceRuns } from "./runs";

const ofHand = (hand: Hand) => (hand === "right" ? "" : " of the left hand");

/** Every other stroke of repeated notes, chords or octaves. */
export function halfRate(hand: Hand): Operator {
  return {
    words: `every other stroke${ofHand(hand)}`,
    apply: (events, bar) => {
      const runs = findRuns(eventsOfHand(events, hand, bar), 4, isSameChord);
      return runs.length === 0 ? null : replaceRuns(events, runs, everyOther);
    },
  };
}

/** Of a run of single notes the outline: every other note, twice as long. */
export function outlineRun(hand: Hand): Operator {
  const goesOn = (a: BarEvent, b: BarEvent) =>
    a.pitches.length === 1 && b.pitches.length === 1 && !isSameChord(a, b);
  return {
    words: `the outline of the run${ofHand(hand)}`,
    apply: (events, bar) => {
      const runs = findRuns(eventsOfHand(events, hand, bar), 6, goesOn);
      return runs.length === 0 ? null : replaceRuns(events, runs, everyOther);
    },
  };
}

/** Repeated inner chords on the beat only. */
export function onTheBeat(hand: Hand): Operator {
  return {
    words: `repeated chords on the beat only${ofHand(hand)}`,
    apply: (events, bar) => {
      const { beat } = bar;
      const runs = findRuns(eventsOfHand(events, hand, bar), 3, isSameChord);
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
