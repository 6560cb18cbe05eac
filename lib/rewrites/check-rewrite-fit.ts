import { type PositionTerms, toPosition, toPositionTerms } from "@/lib/edition/position-terms";
import type { RewriteEvent, RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { Bar } from "@/lib/score/bar";
import type { Part } from "@/lib/score/part";
import {
  addQuarters,
  compareQuarters,
  isEqualQuarters,
  laterOf,
  type Quarters,
  readQuarters,
} from "@/lib/score/quarters";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { barSpanOf } from "./bars-of-terms";
import { checkRewritePlaces, sayRewritePlaceProblem } from "./check-rewrite-places";
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
  const places = checkRewritePlaces(score, terms);
  if (!places.ok) return failure(sayRewritePlaceProblem(places.problem));
  const part = score.parts.find(({ id }) => id === terms.partId);
  if (!part) throw new RangeError(`No part ${terms.partId}, though it was found`);
  const { fromBar, toBar } = barSpanOf(terms);
  const bars = score.bars.slice(fromBar, toBar + 1);
  const last = bars.at(-1);
  const endsWhole =
    last && (terms.to.offset === "0" || isEqualQuarters(toPosition(terms.to).offset, last.length));
  if (!endsWhole || terms.from.offset !== "0")
    return failure("A rewrite takes whole bars: it begins and ends at a bar line.");
  for (const bar of bars) {
    const fault = findBarFault(score, part, bar, terms.events);
    if (fault !== null) return failure(fault);
  }
  const events = [...terms.events].sort(byPlace);
  const to = toPositionTerms({ barIndex: toBar, offset: last.length });
  return success({ ...terms, to, events });
}

function findBarFault(score: Score, part: Part, bar: Bar, all: readonly RewriteEvent[]): string | null {
  const events = all.filter(({ at }) => at.barIndex === bar.index);
  if (events.some(({ tied, pitches }) => tied.some((place) => place >= pitches.length)))
    return `A tie in bar ${bar.label} belongs to no note.`;
  const written = byVoice(events, stretchOf);
  const printed = byVoice(readBarEvents(score, part, bar.index), ({ offset, length }) => ({
    start: offset,
    end: addQuarters(offset, length),
  }));
  for (const voice of new Set([...printed.keys(), ...written.keys()])) {
    const [own = [], before] = [written.get(voice), printed.get(voice)];
    if (before && !isSameCover(own, before))
      return `${sayVoice(voice, bar)} is not as long as it is printed. Fill it with rests, or shorten what is too long.`;
    // A file may let a printed voice run over itself; a rewrite does so only there.
    if (overlaps(own) && !(before && overlaps(before)))
      return `${sayVoice(voice, bar)} has two things at one time.`;
  }
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

function byPlace(a: RewriteEvent, b: RewriteEvent): number {
  const offsetOf = (at: PositionTerms) => toPosition(at).offset;
  return (
    a.at.barIndex - b.at.barIndex ||
    a.staff - b.staff ||
    a.voice - b.voice ||
    compareQuarters(offsetOf(a.at), offsetOf(b.at))
  );
}
