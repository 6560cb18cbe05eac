import type { StripBar } from "@/app/_ui/strip/strip-piece";
import type { BreathReport } from "@/lib/breath/assess-breath";
import type { CutSpan } from "@/lib/score/cut-span";
import { comparePositions } from "@/lib/score/position";
import { findPageSpans, type PageSpan } from "./bracket-spans";
import { sayAbout } from "./say-breath";

/** A bracket under the notes: what is played on one breath, run by run of the page. */
export interface Bracket {
  readonly key: string;
  readonly runs: readonly PageSpan[];
  readonly words: string;
  /** Longer than is comfortable. */
  readonly isLong: boolean;
  /** 0 next to the staff; 1 under it: how it would be without a breath. */
  readonly level: 0 | 1;
}

/**
 * From breath to breath, once for each place on the page; what is played twice at different lengths shows the longer.
 *
 * @param without the breath that is looked at: what would be one stretch without it is drawn under it.
 */
export function layBrackets(
  report: Pick<BreathReport, "stretches" | "preferences">,
  played: readonly Pick<StripBar, "barIndex">[],
  cuts: readonly CutSpan[],
  isAtBreath: (place: PageSpan["to"]) => boolean,
): Bracket[] {
  const longest = report.preferences.comfortableSeconds ?? Number.POSITIVE_INFINITY;
  const brackets = new Map<string, Bracket & { seconds: number }>();
  const put = (span: PageSpan, seconds: number, level: 0 | 1) => {
    const key = `${level} ${JSON.stringify([span.from, span.to])}`;
    const before = brackets.get(key);
    if (before && before.seconds >= seconds) return;
    const words = level === 1 ? `${sayAbout(seconds)} without it` : sayAbout(seconds);
    const runs = findPageSpans(span, played, cuts);
    brackets.set(key, { key, runs, words, isLong: seconds > longest, level, seconds });
  };
  for (const [index, stretch] of report.stretches.entries()) {
    put(stretch, stretch.seconds, 0);
    const next = report.stretches[index + 1];
    const meets = next !== undefined && comparePositions(stretch.to, next.from) === 0;
    if (!meets || !isAtBreath(stretch.to)) continue;
    put({ from: stretch.from, to: next.to }, stretch.seconds + next.seconds, 1);
  }
  return [...brackets.values()];
}
