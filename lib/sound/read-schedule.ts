import { findPerformedOrder } from "@/lib/score/performed-order";
import { noQuarters, type Quarters, writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { seconds } from "@/lib/score/seconds";
import type { TempoMap } from "@/lib/score/tempo-segment";
import { readTimeline } from "@/lib/score/timeline";
import { readCountIn } from "./count-in";
import { listPlaces, type PieceClock } from "./follow-places";
import { findHeardParts, type HeardPart } from "./heard-parts";
import { isSeam } from "./is-seam";
import { type ListenManner, plainManner } from "./listen-manner";
import type { ListenRequest } from "./listen-request";
import { partKeys } from "./part-keys";
import { playAs } from "./play-as";
import { playRewrites } from "./play-rewrites";
import type { Schedule, ScheduledNote, ScheduledPlace, ScheduledSeam, ScheduledSection } from "./schedule";
import { soundNotes } from "./sound-notes";
import { placeNotes } from "./struck-notes";
import { readTakes, type Take } from "./take";

/** Silence between the two sides of a join that are heard in turn, in seconds at full tempo. The choice is ours. */
const pauseBetween = 1.2;

/**
 * What sounds when a span, a join or the piece is listened to. Every onset is that of the tempo map; grace notes, and the
 * notes that wait for them at a start or behind a cut, and those of rolled chords but the lowest, are the only ones beside it.
 *
 * @throws RangeError if a place or a cut lies outside the piece, nothing is played there, or the tempo is out of range.
 */
export function readSchedule(
  printed: Score,
  map: TempoMap,
  request: ListenRequest,
  manner: ListenManner = { ...plainManner, hasCountIn: true },
): Schedule {
  const score = playRewrites(printed, request.rewrites ?? []);
  const full = findPerformedOrder(score);
  const clock: PieceClock = { order: full, timeline: readTimeline(score, full, map) };
  const parts = findHeardParts(score);
  const laid: LaidTake[] = [];
  let startSeconds = 0;
  const takes = readTakes(score, full, request);
  for (const take of takes) {
    const one = layTake(score, map, take, clock, parts, startSeconds);
    laid.push(one);
    startSeconds = one.section.endSeconds + pauseBetween;
  }
  const first = takes[0]?.order.bars[0];
  const countIn = first ? readCountIn(score, map, { barIndex: first.barIndex, offset: first.from }) : [];
  const whole: Schedule = {
    notes: laid.flatMap(({ notes }) => notes),
    voices: parts.map(({ voice }) => voice),
    places: laid.flatMap(({ places }) => places),
    seams: laid.flatMap(({ seams }) => seams),
    sections: laid.map(({ section }) => section),
    countIn,
    countInSeconds: -(countIn[0]?.seconds ?? 0),
    totalSeconds: laid.at(-1)?.section.endSeconds ?? 0,
  };
  return playAs(whole, manner);
}

interface LaidTake {
  readonly notes: readonly ScheduledNote[];
  readonly places: readonly ScheduledPlace[];
  readonly seams: readonly ScheduledSeam[];
  readonly section: ScheduledSection;
}

function layTake(
  score: Score,
  map: TempoMap,
  { kind, order }: Take,
  clock: PieceClock,
  parts: readonly HeardPart[],
  startSeconds: number,
): LaidTake {
  const timeline = readTimeline(score, order, map);
  const secondsAt = remember((performed) => seconds(startSeconds + timeline.secondsAtPerformed(performed)));
  const seams = order.bars.flatMap((after, index): (ScheduledSeam & { readonly at: Quarters })[] => {
    const before = order.bars[index - 1];
    if (!before || !isSeam(clock.order, before, after)) return [];
    const bars = { fromBar: before.barIndex, toBar: after.barIndex };
    return [{ seconds: secondsAt(after.start), ...bars, at: after.start }];
  });
  const breakSeconds = [startSeconds, ...seams.map((seam) => seam.seconds)];
  const breaks = new Set([noQuarters, ...seams.map(({ at }) => at)].map(writeQuarters));
  const placed = parts.map(({ part }) => placeNotes(score, order, part, breaks));
  const notes = placed.flatMap((notesOf, voice) => {
    const part = parts[voice];
    return part ? soundNotes(notesOf, { part, voice, secondsAt, breaks: breakSeconds }) : [];
  });
  return {
    notes: partKeys(notes),
    places: listPlaces(
      order,
      placed.flatMap(({ struck }) => struck),
      secondsAt,
      clock,
    ),
    seams: seams.map(({ at: _, ...seam }) => seam),
    section: { kind, startSeconds, endSeconds: startSeconds + timeline.totalSeconds },
  };
}

/** Many notes share their moments. */
function remember(secondsAt: (performed: Quarters) => number): (performed: Quarters) => number {
  const known = new Map<string, number>();
  return (performed) => {
    const key = writeQuarters(performed);
    const found = known.get(key) ?? secondsAt(performed);
    known.set(key, found);
    return found;
  };
}
