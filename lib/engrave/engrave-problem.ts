/** Why something could not be engraved. */
export type EngraveProblem =
  | { readonly kind: "engraver-busy"; readonly waiting: number }
  | { readonly kind: "engraver-slow"; readonly seconds: number }
  | { readonly kind: "engraver-crashed"; readonly detail: string }
  | { readonly kind: "not-engravable"; readonly detail: string };

/** One or two sentences for the reader. */
export function sayEngraveProblem(problem: EngraveProblem): string {
  switch (problem.kind) {
    case "engraver-busy":
      return `Other scores are being engraved (${problem.waiting} wait). Try again in a minute.`;
    case "engraver-slow":
      return `Engraving took longer than ${problem.seconds} seconds and was stopped. The file is kept.`;
    case "engraver-crashed":
      return "The engraver could not cope with this score, twice. The file is kept; the tuttis and the strip still work.";
    case "not-engravable":
      return "This score could not be engraved. The file is kept; export it again from the notation program it comes from.";
  }
}

/** Thrown by everything that engraves. */
export class EngraveFailure extends Error {
  constructor(readonly problem: EngraveProblem) {
    super("detail" in problem ? `${problem.kind}: ${problem.detail}` : problem.kind);
    this.name = "EngraveFailure";
  }
}
