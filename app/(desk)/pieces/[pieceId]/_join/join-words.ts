import { type NamedBar, namePlace } from "@/app/_ui/name-span";
import type { JoinAssessment } from "@/lib/cuts/join/assess-join";
import type { JoinGrade, JoinRow, JoinRowKind } from "@/lib/cuts/join/join-row";
import { toPositionTerms } from "@/lib/edition/position-terms";
import type { CutSpan } from "@/lib/score/cut-span";

const grades: Readonly<Record<JoinGrade, string>> = {
  clean: "clean",
  "needs-a-touch": "needs a touch",
  rough: "rough",
};

export function sayGrade(grade: JoinGrade): string {
  return grades[grade];
}

const names: Readonly<Record<JoinRowKind, string>> = {
  ...{ key: "Key", harmony: "Harmony", phrase: "Phrase", melody: "Top line", loudness: "Loudness" },
  ...{ metre: "Metre", held: "Held notes", slurs: "Slurs", upbeat: "Upbeat", texture: "Texture" },
  ...{ tempo: "Tempo", "lead-in": "Lead-in", rest: "Rest", theme: "Theme" },
  ...{ precedent: "In the piece", smoothness: "Smoothness" },
};

/** What a row looked at: "Top line". */
export function nameRow(kind: JoinRowKind): string {
  return names[kind];
}

/** The rows that a card draws, in this order. */
export const drawnKinds = ["key", "harmony", "phrase", "melody", "loudness"] as const;
export type DrawnKind = (typeof drawnKinds)[number];

export function isDrawn(kind: JoinRowKind): kind is DrawnKind {
  return (drawnKinds as readonly JoinRowKind[]).includes(kind);
}

/** A clean row that is worth a line: it speaks for the cut, rather than only not against it. */
function speaksFor({ kind, figures }: JoinRow): boolean {
  switch (kind) {
    case "precedent":
      return figures.precedent !== null;
    case "theme":
      return Array.isArray(figures.kept) && figures.kept.length > 0;
    case "lead-in":
      return true;
    case "held":
      return typeof figures.held === "number" && figures.held > 0;
    default:
      return false;
  }
}

export interface SortedRows {
  readonly drawn: readonly JoinRow[];
  /** Not clean, the worst first; then what speaks for the cut. */
  readonly telling: readonly JoinRow[];
  /** Looked at, with nothing to say. */
  readonly quiet: readonly JoinRow[];
}

/** Which rows of a join a card shows, and how. */
export function sortRows({ rows }: Pick<JoinAssessment, "rows">): SortedRows {
  const others = rows.filter(({ kind }) => !isDrawn(kind));
  const graded = (grade: JoinGrade) => others.filter((row) => row.grade === grade);
  const clean = graded("clean");
  return {
    drawn: drawnKinds.flatMap((kind) => rows.find((row) => row.kind === kind) ?? []),
    telling: [...graded("rough"), ...graded("needs-a-touch"), ...clean.filter(speaksFor)],
    quiet: clean.filter((row) => !speaksFor(row)),
  };
}

/** The bar that is heard last before a cut; null when nothing is. */
function barBefore({ from }: CutSpan): number | null {
  if (from.offset.num > 0) return from.barIndex;
  return from.barIndex > 0 ? from.barIndex - 1 : null;
}

/** "Join 84 to 97", "Join bar 84 beat 3 to bar 97 beat 3", "Start at 97", "End after 84". */
export function nameJoin(bars: readonly NamedBar[], cut: CutSpan): string {
  const label = (index: number) => bars[index]?.label ?? "";
  const [before, to] = [barBefore(cut), toPositionTerms(cut.to)];
  const isEnd = to.barIndex === bars.length - 1 && to.offset === bars[to.barIndex]?.length;
  const isWhole = cut.from.offset.num === 0 && (cut.to.offset.num === 0 || isEnd);
  const landing = namePlace(bars, to, !isWhole);
  if (before === null) return `Start at ${isWhole ? label(to.barIndex) : landing}`;
  if (isEnd) return `End after ${label(before)}`;
  if (isWhole) return `Join ${label(before)} to ${label(to.barIndex)}`;
  return `Join ${namePlace(bars, toPositionTerms(cut.from), true)} to ${landing}`;
}

/** Rows that compare the two sides of the join as a whole, and name the bars where the cut begins and where it lands. */
const aboutBothSides: ReadonlySet<JoinRowKind> = new Set<JoinRowKind>([
  ...(["melody", "loudness", "metre", "held", "slurs", "upbeat"] as const),
  ...(["texture", "tempo", "rest", "smoothness"] as const),
]);

/** The bars that a row is about, as one goes to look at them: what is heard before the cut is not what it leaves out. */
export function barsOfRow({ kind, bars }: Pick<JoinRow, "kind" | "bars">, cut: CutSpan): number[] {
  const before = barBefore(cut);
  const shown = aboutBothSides.has(kind)
    ? [...(before === null ? [] : [before]), cut.to.barIndex]
    : [...bars];
  return [...new Set(shown)].sort((a, b) => a - b);
}
