import { nameCut } from "@/lib/cuts/name-cut";
import { beatOf } from "@/lib/score/beat-of";
import type { CutSpan } from "@/lib/score/cut-span";
import { onsetOf } from "@/lib/score/onset-of";
import { pieceLength } from "@/lib/score/piece-length";
import { positionAt } from "@/lib/score/position-at";
import { addQuarters, compareQuarters, noQuarters, type Quarters, scaleQuarters } from "@/lib/score/quarters";
import { compareGrades, type JoinGrade, type JoinRow, worstGrade } from "./join-row";
import type { Heard } from "./listen";

/** A cut near another one that is graded better. */
export interface RepairedJoin {
  readonly cut: CutSpan;
  readonly grade: JoinGrade;
  readonly sentence: string;
}

interface Shift {
  readonly from: number;
  readonly to: number;
  readonly what: string;
}

const both = (steps: number, what: string): Shift => ({ from: steps, to: steps, what });

/** In beats, the nearest first; one end alone only where the beats do not add up. */
const shifts: readonly Shift[] = [
  both(-1, "both ends one beat earlier"),
  both(1, "both ends one beat later"),
  both(-2, "both ends two beats earlier"),
  both(2, "both ends two beats later"),
  { from: 1, to: 0, what: "the beginning one beat later" },
  { from: -1, to: 0, what: "the beginning one beat earlier" },
  { from: 0, to: 1, what: "the end one beat later" },
  { from: 0, to: -1, what: "the end one beat earlier" },
];

function move(heard: Heard, { from, to }: CutSpan, shift: Shift): CutSpan | null {
  const beat = beatOf((heard.score.bars[from.barIndex] ?? { metre: { groups: [], symbol: null } }).metre);
  const end = pieceLength(heard.score);
  const place = (position: CutSpan["from"], beats: number): Quarters =>
    addQuarters(onsetOf(heard.score, position), scaleQuarters(beat, beats));
  const times = [place(from, shift.from), place(to, shift.to)] as const;
  const isInside = times.every(
    (time) => compareQuarters(time, noQuarters) > 0 && compareQuarters(time, end) < 0,
  );
  if (!isInside) return null;
  const moved = { from: positionAt(heard.score, times[0]), to: positionAt(heard.score, times[1]) };
  return heard.checkCut(moved).ok ? moved : null;
}

/** The nearest shift by beats that is graded better, the better grade first; null when none is. */
export function findRepair(
  heard: Heard,
  cut: CutSpan,
  rows: readonly JoinRow[],
  assess: (cut: CutSpan) => JoinRow[],
): RepairedJoin | null {
  const grade = worstGrade(rows.map((row) => row.grade));
  const hasBadMetre = rows.some((row) => row.kind === "metre" && row.grade === "rough");
  const found = shifts
    .filter(({ from, to }) => from === to || hasBadMetre)
    .flatMap((shift) => {
      const moved = move(heard, cut, shift);
      if (!moved) return [];
      const better = worstGrade(assess(moved).map((row) => row.grade));
      const sentence = `With ${shift.what} (${nameCut(heard.score, moved)}) the join is ${better === "clean" ? "clean" : "better"}.`;
      return compareGrades(better, grade) < 0 ? [{ cut: moved, grade: better, sentence }] : [];
    });
  return found.sort((a, b) => compareGrades(a.grade, b.grade))[0] ?? null;
}
