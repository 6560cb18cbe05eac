import { findOverlap } from "@/lib/cuts/overlapping-cuts";
import { sayReasons } from "@/lib/cuts/search/say-reasons";
import type { CutReasons } from "@/lib/edition/cut-reasons";
import { toCutSpan } from "@/lib/edition/cut-terms";
import { toRestNeed } from "@/lib/edition/rest-need-terms";
import { type JudgedCut, judgeCut } from "@/lib/study/judge-cut";
import type { Study } from "@/lib/study/open-study";
import type { FoundReasons, ReasonsQuestion } from "./reasons-message";

/** As many as `cutReasonsSchema` takes, and as long. */
const mostSentences = 12;
const mostLetters = 300;

/**
 * What speaks for and against cuts, each judged alone beside the agreed ones. Null for a cut that cannot be made, or
 * that has bars of an agreed one: it is refused anyway.
 */
export function findCutReasons(study: Study, question: ReasonsQuestion): FoundReasons {
  const agreed = question.agreed.map(toCutSpan);
  const needs = question.needs.map(toRestNeed);
  return question.cuts.map((places) => {
    const cut = toCutSpan(places);
    if (findOverlap(agreed, cut)) return null;
    const judged = judgeCut(study, { cut, agreed, needs });
    return judged.ok ? toReasons(judged.value) : null;
  });
}

const grades = { clean: "clean", "needs-a-touch": "needs a touch", rough: "rough" } as const;

/** A rest that it takes first, then the join, then what has to be written anew, then the rests that it leaves. */
function toReasons({ join, weight, needs }: JudgedCut): CutReasons {
  const robbed = needs.filter(({ verdict }) => verdict === "short");
  const others = needs.filter(({ verdict }) => verdict !== "short");
  const sentences = [...robbed, ...sayReasons(join), ...join.toWrite, ...others].map((one) =>
    typeof one === "string" ? one : one.sentence,
  );
  return {
    schema: 1,
    grade: grades[join.grade],
    sentences: sentences.slice(0, mostSentences).map(shorten),
    savedSeconds: weight.savedSeconds,
    plan: null,
  };
}

function shorten(sentence: string): string {
  return sentence.length <= mostLetters ? sentence : `${sentence.slice(0, mostLetters - 1)}…`;
}
