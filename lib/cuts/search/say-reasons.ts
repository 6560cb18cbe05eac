import type { JoinAssessment } from "../join/assess-join";
import type { JoinRow, JoinRowKind } from "../join/join-row";

/** What speaks for a clean join, the most telling first. */
const telling: readonly JoinRowKind[] = ["precedent", "key", "phrase", "harmony", "theme"];

function isWorthSaying({ kind, figures }: JoinRow): boolean {
  if (kind === "precedent") return figures.precedent !== null;
  return kind !== "theme" || (Array.isArray(figures.kept) && figures.kept.length > 0);
}

/** What is not clean first, the worst before; then what speaks for the join. At most four sentences. */
export function sayReasons({ rows }: JoinAssessment): string[] {
  const rough = rows.filter(({ grade }) => grade === "rough");
  const touch = rows.filter(({ grade }) => grade === "needs-a-touch");
  const clean = telling.flatMap((kind) =>
    rows.filter((row) => row.kind === kind && row.grade === "clean" && isWorthSaying(row)),
  );
  return [...rough, ...touch, ...clean].slice(0, 4).map(({ sentence }) => sentence);
}
