import type { Desk } from "@/app/_data/desk/desk";
import type { Stretch, StripAir, StripWish } from "@/app/_ui/strip/strip-piece";
import type { BreathReport } from "@/lib/breath/assess-breath";
import type { RestRow } from "./rest-rows";
import { sayAbout, sayAmount } from "./say-breath";

/**
 * From the clock of a performance with cuts to the clock as written.
 *
 * @param gaps what is cut, on the clock as written; they may touch or overlap.
 */
export function writtenClock(gaps: readonly Stretch[]): (seconds: number, isEnd: boolean) => number {
  const apart = mergeGaps(gaps);
  return (seconds, isEnd) => {
    let at = seconds;
    for (const { from, to } of apart) {
      // What begins at a seam begins behind the gap; what ends there ends before it.
      if (isEnd ? at <= from + 1e-6 : at < from - 1e-6) break;
      at += to - from;
    }
    return at;
  };
}

function mergeGaps(gaps: readonly Stretch[]): Stretch[] {
  const merged: Stretch[] = [];
  for (const gap of [...gaps].sort((a, b) => a.from - b.from)) {
    const last = merged.at(-1);
    if (last && gap.from <= last.to + 1e-6)
      merged[merged.length - 1] = { from: last.from, to: Math.max(last.to, gap.to) };
    else merged.push(gap);
  }
  return merged;
}

/** The soloist's air with these cuts made, on the clock as written. */
export function airOnStrip(
  report: Pick<BreathReport, "stretches" | "preferences">,
  gaps: readonly Stretch[],
): StripAir {
  const { comfortableSeconds } = report.preferences;
  const at = writtenClock(gaps);
  return {
    comfortableSeconds,
    stretches: report.stretches.map(({ startSeconds, endSeconds, seconds }) => ({
      from: at(startSeconds, false),
      to: at(endSeconds, true),
      seconds,
      isLong: comfortableSeconds !== null && seconds > comfortableSeconds,
    })),
  };
}

/** The wished rests, before their entries. */
export function wishesOnStrip({ strip }: Pick<Desk, "strip">, rows: readonly RestRow[]): StripWish[] {
  return rows.flatMap(({ entry, rest, needs }): StripWish[] => {
    const bar = strip.bars.find(({ barIndex }) => barIndex === entry.barIndex);
    if (!bar || needs.length === 0) return [];
    const perBar = rest.bars.before > 0 ? rest.seconds.before / rest.bars.before : bar.to - bar.from;
    return needs.map(({ need }) => ({
      id: need.id,
      at: bar.from,
      seconds: "seconds" in need.needs ? need.needs.seconds : need.needs.bars * perBar,
      text: "seconds" in need.needs ? sayAbout(need.needs.seconds) : sayAmount(need.needs),
      isReleased: need.releasedBy !== null,
    }));
  });
}
