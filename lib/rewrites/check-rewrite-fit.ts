import { type PositionTerms, toPosition, toPositionTerms } from "@/lib/edition/position-terms";
import type { RewriteEvent, RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { Bar } from "@/lib/score/bar";
import type { Part } from "@/lib/score/part";
import {
  addQuarters,
  compareQuarters,
  isEqualQuarters,
  laterOf,
  noQuarters,
  type Quarters,
  readQuarters,
} from "@/lib/score/quarters";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { barSpanOf } from "./bars-of-terms";
import { readBarEvents } from "./read-bar-events";

interface Stretch {
  readonly start: Quarters;
  readonly end: Quarters;
}

/**
 * Whether a rewrite fits the music: it takes whole bars of the reduction, and each voice that is printed there is written
 * for exactly as long as it is printed, bar by bar. Voices that it adds may pause, within their bars.
 *
 * @returns the same rewrite in its one spelling: it ends with its last bar, its events stand by bar, staff, voice and place.
 * Else what is wrong and where, in a sentence.
 */
export function checkRewriteFit(score: Score, terms: RewriteTerms): Result<RewriteTerms, string> {
  const part = score.parts.find(({ id }) => id === terms.partId);
  if (!part) return failure(`The music has no part ${terms.partId}.`);
  if (part.role !== "reduction") return failure(`${part.name} is not the part that the pianist plays.`);
  const span = findSpan(score, terms);
  if (!span.ok) return span;
  const bars = span.value;
  const [first, last] = [bars[0], bars.at(-1)];
  if (!first || !last) return failure("A rewrite is of one bar at least.");
  const strange = terms.events.find(({ at }) => at.barIndex < first.index || at.barIndex > last.index);
  if (strange) return failure(`A note stands outside of the bars of the rewrite (${sayBars(first, last)}).`);
  for (const bar of bars) {
    const fault = findBarFault(score, part, bar, terms.events);
    if (fault !== null) return failure(fault);
  }
  const events = [...terms.events].sort(byPlace);
  const to = toPositionTerms({ barIndex: last.index, offset: last.length });
  return success({ ...terms, from: { barIndex: first.index, offset: "0" }, to, events });
}

function findSpan(score: Score, terms: RewriteTerms): Result<readonly Bar[], string> {
  const whole = "A rewrite takes whole bars: it begins and ends at a bar line.";
  const outside = `These bars are not in the piece, which has ${score.bars.length} bars.`;
  const { fromBar, toBar } = barSpanOf(terms);
  const last = score.bars[toBar];
  if (toBar < fromBar) return failure("A rewrite has one bar at least, and ends after it begins.");
  if (!last) return failure(outside);
  const { offset } = toPosition(terms.to);
  const endsWhole = offset.num === 0 || isEqualQuarters(offset, last.length);
  return terms.from.offset === "0" && endsWhole
    ? success(score.bars.slice(fromBar, toBar + 1))
    : failure(whole);
}

function findBarFault(score: Score, part: Part, bar: Bar, all: readonly RewriteEvent[]): string | null {
  const events = all.filter(({ at }) => at.barIndex === bar.index);
  const wrong = events.map((event) => findEventFault(part, bar, event)).find((fault) => fault !== null);
  if (wrong) return wrong;
  const written = byVoice(events, stretchOf);
  const printed = byVoice(readBarEvents(score, part, bar.index), ({ offset, length }) => ({
    start: offset,
    end: addQuarters(offset, length),
  }));
  for (const [voice, stretches] of printed) {
    const own = written.get(voice) ?? [];
    if (!isSameCover(own, stretches))
      return `${sayVoice(voice, bar)} is not as long as it is printed. Fill it with rests, or shorten what is too long.`;
    // A file may let a printed voice run over itself; a rewrite does so only there.
    if (overlaps(own) && !overlaps(stretches)) return sayTwice(voice, bar);
  }
  for (const [voice, stretches] of written) {
    if (printed.has(voice)) continue;
    if (overlaps(stretches)) return sayTwice(voice, bar);
    const reach = stretches.reduce((far, { end }) => laterOf(far, end), noQuarters);
    if (compareQuarters(reach, bar.length) > 0)
      return `${sayVoice(voice, bar)} runs over the end of the bar.`;
  }
  return null;
}

function findEventFault(part: Part, bar: Bar, { staff, pitches, tied }: RewriteEvent): string | null {
  if (staff > part.staffCount)
    return `A note of bar ${bar.label} stands on staff ${staff}, which ${part.name} does not have.`;
  if (tied.some((place) => place >= pitches.length)) return `A tie in bar ${bar.label} belongs to no note.`;
  return null;
}

function byVoice<Event extends { readonly staff: number; readonly voice: number }>(
  events: readonly Event[],
  read: (event: Event) => Stretch,
): ReadonlyMap<string, readonly Stretch[]> {
  const voices = new Map<string, Stretch[]>();
  for (const event of events) {
    const key = `${event.staff} ${event.voice}`;
    voices.set(key, [...(voices.get(key) ?? []), read(event)]);
  }
  for (const stretches of voices.values()) stretches.sort((a, b) => compareQuarters(a.start, b.start));
  return voices;
}

function stretchOf({ at, lasts }: RewriteEvent): Stretch {
  const { offset: start } = toPosition(at);
  const length = readQuarters(lasts);
  if (!length) throw new RangeError(`Not a length: ${lasts}`);
  return { start, end: addQuarters(start, length) };
}

const overlaps = (stretches: readonly Stretch[]): boolean =>
  stretches.some(({ start }, index) => {
    const before = stretches[index - 1];
    return before !== undefined && compareQuarters(start, before.end) < 0;
  });

function isSameCover(a: readonly Stretch[], b: readonly Stretch[]): boolean {
  const [one, other] = [coverOf(a), coverOf(b)];
  return (
    one.length === other.length &&
    one.every(({ start, end }, index) => {
      const against = other[index];
      return against && isEqualQuarters(start, against.start) && isEqualQuarters(end, against.end);
    })
  );
}

/** The time that stretches fill, as few stretches as there can be. @param stretches by their starts. */
function coverOf(stretches: readonly Stretch[]): Stretch[] {
  const cover: Stretch[] = [];
  for (const { start, end } of stretches) {
    const last = cover.at(-1);
    if (last && compareQuarters(start, last.end) <= 0)
      cover[cover.length - 1] = { start: last.start, end: laterOf(last.end, end) };
    else cover.push({ start, end });
  }
  return cover;
}

function sayVoice(key: string, bar: Bar): string {
  const [staff, voice] = key.split(" ");
  return `Voice ${voice} of staff ${staff} in bar ${bar.label}`;
}

const sayTwice = (key: string, bar: Bar) => `${sayVoice(key, bar)} has two things at one time.`;

const sayBars = (first: Bar, last: Bar) =>
  first === last ? `bar ${first.label}` : `bars ${first.label}–${last.label}`;

function byPlace(a: RewriteEvent, b: RewriteEvent): number {
  const offsetOf = (at: PositionTerms) => toPosition(at).offset;
  return (
    a.at.barIndex - b.at.barIndex ||
    a.staff - b.staff ||
    a.voice - b.voice ||
    compareQuarters(offsetOf(a.at), offsetOf(b.at))
  );
}
