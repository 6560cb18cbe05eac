import { onsetOf } from "@/lib/score/onset-of";
import { findPerformedOrder, type PerformedOrder } from "@/lib/score/performed-order";
import { positionAt } from "@/lib/score/position-at";
import {
  addQuarters,
  compareQuarters,
  earlierOf,
  laterOf,
  noQuarters,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import { timedSeconds } from "@/lib/score/scale-by-timings";
import type { Score } from "@/lib/score/score";
import { readTempoMap, type TempoMap } from "@/lib/score/tempo-map";
import type { PlayedEdition } from "./performed-sections";
import { toPosition, toPositionTerms } from "./position-terms";
import { sortTempoTerms, type TempoTerms, toTempoSettings } from "./tempo-terms";

type Timing = TempoTerms["timings"][number];

/** Written time, end exclusive. */
interface Span {
  readonly from: Quarters;
  readonly to: Quarters;
}

/** How long a section really took, beside what was planned for it. */
interface Taken {
  readonly spans: readonly Span[];
  readonly plannedSeconds: number;
  readonly realSeconds: number;
}

/**
 * The duo's tempi with real times of sections as its own timings, so that each of these sections then takes what it
 * took. A section is timed where it stands on the page: what a cut leaves out of it keeps its tempo, and bars that were
 * tapped more than once get the mean. Timings that stood there before give way; what is left of them beside the
 * sections keeps its length.
 *
 * @param realSeconds index of a section → its time by the stopwatch.
 * @param tempo what holds now.
 * @throws RangeError if a section does not exist, or took no time.
 */
export function takeTimings(
  played: PlayedEdition,
  realSeconds: ReadonlyMap<number, number>,
  tempo: TempoTerms,
): TempoTerms {
  const { score, order, map } = played;
  const taken = [...realSeconds].map(([index, real]): Taken => {
    const section = played.sections[index];
    if (!section || !(real > 0))
      throw new RangeError(`Section ${index} of ${played.sections.length}: ${real} s`);
    return {
      ...{ spans: writtenSpans(score, order, section), realSeconds: real },
      plannedSeconds: section.plannedSeconds,
    };
  });
  const { bars } = findPerformedOrder(score);
  const secondsOf = (span: Span, by: TempoMap) => timedSeconds(score, bars, span, by);
  const timed = timeSpans(taken).map(({ span, ratio }) =>
    toTiming(score, span, ratio * secondsOf(span, map)),
  );
  const before = readTempoMap(score, toTempoSettings(tempo));
  const left = tempo.timings.flatMap((timing) => {
    const span = { from: onsetOf(score, toPosition(timing.from)), to: onsetOf(score, toPosition(timing.to)) };
    const rest = taken.flatMap(({ spans }) => spans).reduce(without, [span]);
    const isUntouched = rest.length === 1 && rest[0] === span;
    return isUntouched ? [timing] : rest.map((one) => toTiming(score, one, secondsOf(one, before)));
  });
  const timings = [...left, ...timed].filter(({ seconds }) => seconds > 0);
  return sortTempoTerms({ ...tempo, timings });
}

function toTiming(score: Score, { from, to }: Span, seconds: number): Timing {
  const place = (onset: Quarters) => toPositionTerms(positionAt(score, onset));
  return { from: place(from), to: place(to), seconds: Math.round(seconds * 1000) / 1000 };
}

/** What of the page a stretch of performed time is, each time anew; neighbours on the page are one. */
function writtenSpans(score: Score, order: PerformedOrder, section: Span): Span[] {
  const spans: Span[] = [];
  for (const bar of order.bars) {
    const from = laterOf(bar.start, section.from);
    const to = earlierOf(addQuarters(bar.start, subtractQuarters(bar.to, bar.from)), section.to);
    if (compareQuarters(from, to) >= 0) continue;
    const start = score.bars[bar.barIndex]?.start ?? noQuarters;
    const shift = subtractQuarters(addQuarters(start, bar.from), bar.start);
    const span = { from: addQuarters(from, shift), to: addQuarters(to, shift) };
    const last = spans.at(-1);
    if (last && compareQuarters(last.to, span.from) === 0) spans[spans.length - 1] = { ...last, to: span.to };
    else spans.push(span);
  }
  return spans;
}

/** The page divided where sections meet or overlap, and by how much longer than planned each piece of it was. */
function timeSpans(taken: readonly Taken[]): { span: Span; ratio: number }[] {
  const all = taken.flatMap((one) => one.spans.map((span) => ({ span, one })));
  const edges = all
    .flatMap(({ span }) => [span.from, span.to])
    .sort(compareQuarters)
    .filter((edge, index, list) => index === 0 || compareQuarters(edge, list[index - 1] ?? edge) !== 0);
  const pieces = edges.slice(1).map((to, index) => ({ from: edges[index] ?? to, to }));
  return pieces.flatMap((span) => {
    const over = all.filter(
      ({ span: { from, to } }) => compareQuarters(from, span.from) <= 0 && compareQuarters(span.to, to) <= 0,
    );
    const planned = over.reduce((sum, { one }) => sum + one.plannedSeconds, 0);
    const real = over.reduce((sum, { one }) => sum + one.realSeconds, 0);
    return planned > 0 ? [{ span, ratio: real / planned }] : [];
  });
}

/** What is left of spans beside another; a span that it does not touch stays the same object. */
function without(spans: readonly Span[], { from, to }: Span): Span[] {
  return spans.flatMap((span) => {
    if (compareQuarters(to, span.from) <= 0 || compareQuarters(span.to, from) <= 0) return [span];
    const before = { from: span.from, to: from };
    const after = { from: to, to: span.to };
    return [before, after].filter((one) => compareQuarters(one.from, one.to) < 0);
  });
}
