import type { BreathReport } from "@/lib/breath/assess-breath";

/** Playing against resting in a whole performance, in seconds. */
export interface BreathTotals {
  readonly plays: number;
  readonly rests: number;
}

/** Rests too short for a breath count as playing. */
export function sumBreath({ stretches, breaths }: Pick<BreathReport, "stretches" | "breaths">): BreathTotals {
  const plays = stretches.reduce((sum, { seconds }) => sum + seconds, 0);
  const rests = breaths.reduce(
    (sum, { kind, startSeconds, endSeconds }) => (kind === "rest" ? sum + endSeconds - startSeconds : sum),
    0,
  );
  return { plays, rests };
}
