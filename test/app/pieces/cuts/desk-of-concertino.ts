import type { Desk, DeskCut, DeskPerson } from "@/app/_data/desk/desk";
import { writeQuarters } from "@/lib/score/quarters";
import { type JudgedCut, judgeCut } from "@/lib/study/judge-cut";
import { type Study, studyScore } from "@/lib/study/open-study";
import { concertino } from "@/test/lib/cuts/join/hear-concertino";

const printed = { tempi: [], fermataFactor: 1.75, ritardandoTo: 0.75, timings: [] };

/** The study of the demo's concertino, at its printed tempi. */
export const study: Study = studyScore(concertino, { tempo: printed, longTuttiBars: 16 });

export const bars: Desk["bars"] = concertino.bars.map(({ label, length }) => ({
  ...{ label, length: writeQuarters(length), beats: ["0", "1", "2", "3"], solo: "" },
}));

const person = (userId: string, name: string, role: DeskPerson["role"]): DeskPerson => ({
  ...{ userId, name, role, initial: name.charAt(0), hasLeft: false },
});
export const pianist = person("p", "Ada Quill", "pianist");
export const soloist = person("s", "Bram Oor", "soloist");
export const people = [pianist, soloist];

/** Bars by their index, both ends on bar lines. */
export function cutAt(from: number, to: number): JudgedCut {
  const at = (barIndex: number) => ({ barIndex, offset: { num: 0, den: 1 } as never });
  const judged = judgeCut(study, { cut: { from: at(from), to: at(to) }, agreed: [], needs: [] });
  if (!judged.ok) throw new RangeError(judged.problem.sentence);
  return judged.value;
}

export function proposal(change: Partial<DeskCut> = {}): DeskCut {
  return {
    ...{ id: "c1", number: 2, state: "open", proposedBy: "s", createdAt: "2026-02-22T21:14:00Z", reason: "" },
    ...{ termsHash: "h", from: { barIndex: 2, offset: "0" }, to: { barIndex: 5, offset: "0" } },
    ...{ name: "bars 3–5", firstBar: 2, lastBar: 4, gaps: [], weight: null, answers: [], instead: null },
    ...{ frozenIn: [], isStale: false, waitsForMe: true, why: null },
    ...change,
  };
}
