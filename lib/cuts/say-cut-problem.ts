import type { CutProblem } from "./check-cut";

const signs = {
  repeat: "the repeat signs",
  ending: "the endings",
  jump: "the jump signs (D.C., D.S., coda or Fine)",
} as const;

/** What is wrong with a cut and what to do, in one or two sentences. */
export function sayCutProblem(problem: CutProblem): string {
  switch (problem.kind) {
    case "cut-outside-piece":
      return `The cut lies outside the piece, which has ${problem.barCount} bars. Choose both ends inside it.`;
    case "cut-empty":
      return `The cut begins and ends at the same place in bar ${problem.barLabel}: nothing would be left out.`;
    case "cut-reversed":
      return `The cut ends in bar ${problem.toLabel}, before it begins in bar ${problem.fromLabel}. Exchange the two ends.`;
    case "cut-splits-repeat": {
      const { firstLabel, lastLabel } = problem;
      const where = firstLabel === lastLabel ? `bar ${firstLabel}` : `bars ${firstLabel} to ${lastLabel}`;
      return `The cut takes away only a part of ${signs[problem.what]} of ${where}. Leave out all of the section, or only bars between the signs.`;
    }
    case "cut-takes-everything":
      return `The cut would leave out all ${problem.barCount} bars of the piece.`;
  }
}
