import type { ReadProblem } from "./read-problem";

/** Carries a problem out of the parser's callbacks; caught where a read function returns its result. */
export class ReadFailure extends Error {
  constructor(readonly problem: ReadProblem) {
    super(problem.kind);
    this.name = "ReadFailure";
  }
}
