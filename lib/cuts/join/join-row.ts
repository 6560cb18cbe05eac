/** From the best: play it as it stands · something has to be adjusted · it will be heard as a break. */
export type JoinGrade = "clean" | "needs-a-touch" | "rough";

export type JoinRowKind =
  | "metre"
  | "key"
  | "harmony"
  | "melody"
  | "loudness"
  | "phrase"
  | "held"
  | "slurs"
  | "upbeat"
  | "texture"
  | "tempo"
  | "lead-in"
  | "rest"
  | "theme"
  | "precedent"
  | "smoothness";

/** A number, a name or a short list that the row was judged by; lists are for drawing. */
export type JoinFigure = number | string | boolean | null | readonly (number | null)[];

/** One thing that was looked at on both sides of a join. */
export interface JoinRow {
  readonly kind: JoinRowKind;
  readonly grade: JoinGrade;
  /** One short sentence in musicians' words, bars by their printed labels. */
  readonly sentence: string;
  readonly figures: Readonly<Record<string, JoinFigure>>;
  /** What the sentence speaks of. */
  readonly noteIds: readonly string[];
  /** Indices of bars. */
  readonly bars: readonly number[];
}

const order: readonly JoinGrade[] = ["clean", "needs-a-touch", "rough"];

export function worstGrade(grades: readonly JoinGrade[]): JoinGrade {
  return order[Math.max(0, ...grades.map((grade) => order.indexOf(grade)))] ?? "clean";
}

/** Negative where the first is better. */
export function compareGrades(a: JoinGrade, b: JoinGrade): number {
  return order.indexOf(a) - order.indexOf(b);
}
