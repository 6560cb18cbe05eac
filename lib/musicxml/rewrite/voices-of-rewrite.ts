import { toPosition } from "@/lib/edition/position-terms";
import type { RewriteEvent, RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";
import { comparePositions, type Position } from "@/lib/score/position";
import { addQuarters, isEqualQuarters, type Quarters, readQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { isTwoNoteTremolo, type VoiceEvent } from "./written-piece";

/** What one voice of a staff plays in one bar of a rewrite. */
export interface RewrittenVoice {
  readonly barIndex: number;
  readonly staff: number;
  readonly voice: string;
  /** In order of time. */
  readonly events: readonly VoiceEvent[];
}

interface Timed {
  readonly at: Position;
  readonly length: Quarters;
  readonly terms: RewriteEvent;
}

/** @throws RangeError if a length did not pass `rewriteTermsSchema`. */
export function voicesOfRewrite(rewrite: RewriteTerms, score: Score): RewrittenVoice[] {
  const lines = new Map<string, Timed[]>();
  for (const terms of rewrite.events) {
    const line = `${terms.staff} ${terms.voice}`;
    lines.set(line, [...(lines.get(line) ?? []), readEvent(terms)]);
  }
  return [...lines.values()].flatMap((line) => splitInBars(line, score));
}

function readEvent(terms: RewriteEvent): Timed {
  const length = readQuarters(terms.lasts);
  if (!length) throw new RangeError(`Not a length: ${terms.lasts}`);
  return { at: toPosition(terms.at), length, terms };
}

function splitInBars(line: readonly Timed[], score: Score): RewrittenVoice[] {
  const events = line.toSorted((a, b) => comparePositions(a.at, b.at));
  const bars = new Map<number, VoiceEvent[]>();
  for (const [index, timed] of events.entries()) {
    const event = toVoiceEvent(timed, events[index - 1], events[index + 1], score);
    bars.set(timed.at.barIndex, [...(bars.get(timed.at.barIndex) ?? []), event]);
  }
  const [first] = events;
  if (!first) return [];
  const { staff, voice } = first.terms;
  return [...bars].map(([barIndex, own]) => ({ barIndex, staff, voice: `${voice}`, events: own }));
}

function toVoiceEvent(
  timed: Timed,
  before: Timed | undefined,
  after: Timed | undefined,
  score: Score,
): VoiceEvent {
  return {
    at: timed.at.offset,
    length: timed.length,
    terms: timed.terms,
    tiedFrom: new Set(before ? tiesBetween(before, timed, score).map(([, to]) => to) : []),
    tiedTo: new Set(after ? tiesBetween(timed, after, score).map(([from]) => from) : []),
  };
}

/** Pitches of `from` that are held into `to`, as places in both; none where the voice pauses between the two. */
function tiesBetween(from: Timed, to: Timed, score: Score): [number, number][] {
  const end = timeOf(score, from.at, from.length);
  const start = timeOf(score, to.at);
  // A tremolo to and fro has no last note to hold.
  const isTremolo = isTwoNoteTremolo({ terms: from.terms });
  if (!end || !start || !isEqualQuarters(end, start) || isTremolo) return [];
  return from.terms.tied.flatMap((place): [number, number][] => {
    const pitch = from.terms.pitches[place];
    const found = pitch ? to.terms.pitches.findIndex((each) => isSamePitch(each, pitch)) : -1;
    return found === -1 ? [] : [[place, found]];
  });
}

function timeOf(score: Score, at: Position, more?: Quarters): Quarters | null {
  const bar = score.bars[at.barIndex];
  if (!bar) return null;
  const time = addQuarters(bar.start, at.offset);
  return more ? addQuarters(time, more) : time;
}

const isSamePitch = (a: RewritePitch, b: RewritePitch): boolean =>
  a.step === b.step && a.alter === b.alter && a.octave === b.octave;
