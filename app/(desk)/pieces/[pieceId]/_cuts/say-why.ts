import type { CutReasons } from "@/lib/edition/cut-reasons";
import { sayClock } from "@/lib/score/say-clock";
import type { JudgedCut } from "@/lib/study/judge-cut";
import { sayGrade } from "../_join/join-words";

/** Reasons that were not there when the cut was put forward, at most so many. */
const mostNew = 2;

/** How a cut is judged now, where that differs from what was kept; null where it does not, or is not known. */
export function sayToday(why: CutReasons, judged: JudgedCut | null): string | null {
  if (judged === null) return null;
  const { grade, rows } = judged.join;
  const hasNewGrade = sayGrade(grade) !== why.grade;
  const hasNewTime = Math.round(judged.weight.savedSeconds) !== Math.round(why.savedSeconds);
  if (!hasNewGrade && !hasNewTime) return null;
  const worse = rows.filter(
    (row) => row.grade === grade && grade !== "clean" && !why.sentences.includes(row.sentence),
  );
  return [
    ...(hasNewGrade ? [`the join is ${sayGrade(grade)}.`] : []),
    ...(hasNewGrade ? worse.slice(0, mostNew).map(({ sentence }) => sentence) : []),
    ...(hasNewTime ? [`${sayClock(judged.weight.savedSeconds)} shorter beside the cuts agreed now.`] : []),
  ].join(" ");
}
