import type { HandName, HandWork, ReadersWork } from "./hand-work";
import { turnStrain } from "./turn-strain";

/** What one hand does around a turn, in seconds. */
export interface HandAtTurn {
  readonly hand: HandName;
  /** How long it has been free when the last bar of the page ends, and how long it stays free from then on. */
  readonly freeBefore: number;
  readonly freeAfter: number;
  /** How long it may take over the turn: until any hand has to read from the new page. */
  readonly freeSeconds: number;
}

/** One turning of a page, at one moment of the performance. */
export interface TurnMoment {
  readonly atSeconds: number;
  /** Back when a repeat or a D.C. leads to the page before. */
  readonly direction: "on" | "back";
  readonly hands: readonly HandAtTurn[];
  /** Of the hand that has most time. */
  readonly freeSeconds: number;
  /** The hand that turns; null when none is free at all. */
  readonly freeHand: HandName | null;
  readonly isAfterHold: boolean;
  /** How long nothing is played after the turn. */
  readonly silenceAfter: number;
  readonly cost: number;
}

/** Closer than this is the same moment: sums of seconds differ in their last digits. */
const sameMoment = 1e-6;

/**
 * What turning a page at a moment asks of the reader.
 *
 * A hand is free before the moment from its last note on. After it the hand counts as free only until *any* hand begins a
 * note, because that note stands on the new page.
 */
export function assessTurn(work: ReadersWork, atSeconds: number, direction: "on" | "back"): TurnMoment {
  const nextOnset = work.onsets[firstAtOrAfter(work.onsets, atSeconds - sameMoment)];
  const end = work.timeline.totalSeconds;
  const untilNote = Math.max(0, (nextOnset ?? end) - atSeconds);
  const hands = work.hands.map((hand) => assessHand(hand, atSeconds, untilNote, end));
  const best = hands.reduce<HandAtTurn | null>(
    (most, hand) => (hand.freeSeconds > (most?.freeSeconds ?? sameMoment) ? hand : most),
    null,
  );
  const hold = work.holdEnds[firstAtOrAfter(work.holdEnds, atSeconds - sameMoment)];
  const isAfterHold = hold !== undefined && hold - atSeconds < sameMoment;
  const isSounding = hands.some((hand) => hand.freeAfter === 0);
  return {
    atSeconds,
    direction,
    hands,
    freeSeconds: best?.freeSeconds ?? 0,
    freeHand: best?.hand ?? null,
    isAfterHold,
    silenceAfter: isSounding ? 0 : untilNote,
    cost: turnStrain(hands, isAfterHold),
  };
}

function assessHand(hand: HandWork, at: number, untilNote: number, end: number): HandAtTurn {
  const next = lastBefore(hand.busy, at - sameMoment) + 1;
  const [last, following] = [hand.busy[next - 1], hand.busy[next]];
  // Held over the bar line: not free on either side.
  if (last && last.to > at + sameMoment)
    return { hand: hand.name, freeBefore: 0, freeAfter: 0, freeSeconds: 0 };
  const freeBefore = Math.max(0, at - (last?.to ?? 0));
  const freeAfter = Math.max(0, (following?.from ?? end) - at);
  const freeSeconds = exact(freeBefore + Math.min(freeAfter, untilNote));
  return { hand: hand.name, freeBefore: exact(freeBefore), freeAfter: exact(freeAfter), freeSeconds };
}

/** To the microsecond, so that a second of rest is a second whatever was added up to it. */
const exact = (seconds: number): number => Math.round(seconds * 1e6) / 1e6;

/** Index of the last span that begins before a time, or -1. */
function lastBefore(spans: HandWork["busy"], time: number): number {
  let [low, high] = [0, spans.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((spans[middle]?.from ?? 0) < time) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

function firstAtOrAfter(times: readonly number[], time: number): number {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((times[middle] ?? 0) < time) low = middle + 1;
    else high = middle;
  }
  return low;
}
