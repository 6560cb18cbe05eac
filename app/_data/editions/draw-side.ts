import { runningTimeWith } from "@/app/_data/desk/desk-time";
import type { ScoreInTime } from "@/app/_data/desk/in-time";
import { stripOf } from "@/app/_data/desk/strip-of";
import type { SideName } from "@/lib/edition/choose-sides";
import { findClockStretches } from "@/lib/score/clock-stretches";
import type { CutSpan } from "@/lib/score/cut-span";
import type { DrawnSide } from "./editions-view";

/** A version of the piece along its own clock, in its own tempi. */
export function drawSide(name: SideName, inTime: ScoreInTime, cuts: readonly CutSpan[]): DrawnSide {
  const { totalSeconds, solo, tuttis, letters } = stripOf(inTime, "", []);
  return {
    name,
    seconds: runningTimeWith(inTime, cuts).seconds,
    cutCount: cuts.length,
    totalSeconds,
    solo,
    tuttis: tuttis.map(({ from, to }) => ({ from, to })),
    letters,
    gaps: cuts.flatMap((cut) => findClockStretches(inTime, cut)).sort((a, b) => a.from - b.from),
  };
}
