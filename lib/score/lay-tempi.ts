import type { Metre } from "./bar";
import { hasDottedBeats, quartersPerWordBeat } from "./beat-of";
import { pieceLength } from "./piece-length";
import { positionAt } from "./position-at";
import { compareQuarters, earlierOf, noQuarters, type Quarters } from "./quarters";
import { readTempoWords } from "./read-tempo-words";
import type { Score } from "./score";
import type { TempoEvent } from "./tempo-events";
import type { TempoAssumption, TempoBasis, TempoSegment } from "./tempo-segment";
import { longestRampBars, unmarkedQuartersPerMinute } from "./tempo-settings";
import type { TempoWord } from "./tempo-words";

/** A tempo in force, and how surely. */
interface Tempo {
  readonly quartersPerMinute: number;
  readonly basis: TempoBasis;
  readonly slowest: number;
  readonly fastest: number;
}

const sure = (quartersPerMinute: number, basis: "printed" | "own"): Tempo => {
  return { quartersPerMinute, basis, slowest: 1, fastest: 1 };
};

const noMetre: Metre = { groups: [], symbol: null };
const metreAt = (score: Score, barIndex: number): Metre =>
  score.bars[barIndex]?.metre ?? score.bars[0]?.metre ?? noMetre;

function tempoOfWord(score: Score, word: TempoWord, barIndex: number): Tempo {
  return {
    quartersPerMinute: word.beatsPerMinute * quartersPerWordBeat(metreAt(score, barIndex)),
    basis: "assumed",
    slowest: word.slowest / word.beatsPerMinute,
    fastest: word.fastest / word.beatsPerMinute,
  };
}

/** Lays the tempi of a piece one after the other; each method answers one kind of statement. */
class TempoLayer {
  readonly segments: TempoSegment[] = [];
  readonly assumptions: TempoAssumption[] = [];
  private first: Tempo | null = null;
  /** The last tempo that stood for itself: what "a tempo" means after "più mosso". */
  private main: Tempo;
  private current: Tempo;
  private hasRampedSinceSet = false;
  private at = noQuarters;

  constructor(
    private readonly score: Score,
    private readonly ritardandoTo: number,
    opening: Tempo,
  ) {
    this.main = opening;
    this.current = opening;
  }

  /** Fills up to `to` with the tempo in force. */
  private hold(to: Quarters): void {
    this.lay(to, this.current.quartersPerMinute);
  }

  private lay(to: Quarters, endQuartersPerMinute: number): void {
    if (compareQuarters(this.at, to) >= 0) return;
    const { quartersPerMinute, basis, slowest, fastest } = this.current;
    const tempi = { startQuartersPerMinute: quartersPerMinute, endQuartersPerMinute };
    this.segments.push({ from: this.at, to, ...tempi, basis, slowest, fastest });
    this.at = to;
  }

  set(event: TempoEvent): void {
    this.hold(event.onset);
    const tempo = this.decide(event);
    if (!tempo) return;
    this.current = tempo;
    this.hasRampedSinceSet = false;
    this.first ??= tempo;
  }

  private decide(event: TempoEvent): Tempo | null {
    if (event.own !== null) return this.stand(sure(event.own, "own"));
    if (event.printed !== null) return this.stand(sure(event.printed, "printed"));
    const { words } = event;
    if (!words) return null;
    switch (words.meaning.kind) {
      case "absolute":
        return this.stand(this.assumeWord(event, words.text, words.meaning.word));
      case "relative":
        return this.change(event, words.text, words.meaning.ratio);
      case "restore":
        if (words.meaning.which === "first") return this.stand(this.first ?? this.main);
        return this.hasRampedSinceSet ? this.current : this.main;
      case "same":
        return this.keepBeat(event, words.text);
    }
  }

  /** Beat for beat between 2/4 and 6/8; between 4/4 and alla breve the quarters stay as they are. */
  private keepBeat(event: TempoEvent, text: string): Tempo | null {
    const before = metreAt(this.score, event.position.barIndex - (event.position.offset.num === 0 ? 1 : 0));
    const isDotted = hasDottedBeats(metreAt(this.score, event.position.barIndex));
    const wasDotted = hasDottedBeats(before);
    return isDotted === wasDotted ? null : this.change(event, text, isDotted ? 3 / 2 : 2 / 3);
  }

  private stand(tempo: Tempo): Tempo {
    this.main = tempo;
    return tempo;
  }

  private assumeWord(event: TempoEvent, text: string, word: TempoWord): Tempo {
    const tempo = tempoOfWord(this.score, word, event.position.barIndex);
    const { quartersPerMinute } = tempo;
    const range = `${word.slowest} to ${word.fastest}`;
    this.assume("tempo-word", event, text, quartersPerMinute, (label) => {
      const figure = roundTempo(quartersPerMinute);
      return `Bar ${label} says “${text}” without a number: ♩ = ${figure} is assumed (lists of tempo words give ${range} beats a minute).`;
    });
    return tempo;
  }

  private change(event: TempoEvent, text: string, ratio: number): Tempo {
    const quartersPerMinute = this.current.quartersPerMinute * ratio;
    this.assume("tempo-change", event, text, quartersPerMinute, (label) => {
      return `Bar ${label} says “${text}”: ♩ = ${roundTempo(quartersPerMinute)} is assumed, against ${roundTempo(this.current.quartersPerMinute)} before.`;
    });
    return { ...this.current, quartersPerMinute, basis: "assumed" };
  }

  /** @param limit where the next statement about the tempo stands. */
  ramp(event: TempoEvent, ramp: { text: string; direction: "slower" | "faster" }, limit: Quarters): void {
    this.hold(event.onset);
    const end = earlierOf(limit, this.afterBars(event, longestRampBars));
    const share = ramp.direction === "slower" ? this.ritardandoTo : 1 / this.ritardandoTo;
    this.assume("ramp", event, ramp.text, share, (label) => {
      return `Bar ${label} says “${ramp.text}”: the tempo is assumed to reach ${Math.round(share * 100)} % of what it was.`;
    });
    this.lay(end, this.current.quartersPerMinute * share);
    this.hasRampedSinceSet = true;
    if (compareQuarters(end, limit) < 0) this.sayRampEnds(end, ramp.text);
  }

  private sayRampEnds(end: Quarters, text: string): void {
    const position = positionAt(this.score, end);
    const tempo = this.current.quartersPerMinute;
    this.assume("ramp-ends", { position }, text, tempo, (label) => {
      return `No new tempo follows “${text}”: from bar ${label} the tempo before it (♩ = ${roundTempo(tempo)}) is assumed again.`;
    });
  }

  private afterBars(event: TempoEvent, count: number): Quarters {
    const bar = this.score.bars[event.position.barIndex + count];
    return bar ? bar.start : pieceLength(this.score);
  }

  assume(
    kind: TempoAssumption["kind"],
    { position }: Pick<TempoEvent, "position">,
    printed: string | null,
    assumed: number,
    say: (barLabel: string) => string,
  ): void {
    const barLabel = this.score.bars[position.barIndex]?.label ?? "";
    this.assumptions.push({ kind, position, barLabel, printed, assumed, sentence: say(barLabel) });
  }

  finish(): void {
    this.hold(pieceLength(this.score));
  }
}

/** A figure to read: whole, or with one decimal below 40. */
function roundTempo(quartersPerMinute: number): number {
  return quartersPerMinute < 40 ? Math.round(quartersPerMinute * 10) / 10 : Math.round(quartersPerMinute);
}

const setsTempo = (event: TempoEvent): boolean =>
  event.own !== null || event.printed !== null || event.words !== null;

const standsForItself = (event: TempoEvent): boolean =>
  event.own !== null || event.printed !== null || event.words?.meaning.kind === "absolute";

/** A first mark in the first two bars holds from the start, as when it stands after the upbeat. */
function moveFirstToStart(events: readonly TempoEvent[]): TempoEvent[] {
  const first = events.findIndex(setsTempo);
  const event = events[first];
  if (!event || !standsForItself(event) || event.position.barIndex > 1) return [...events];
  const start = { onset: noQuarters, position: { barIndex: 0, offset: noQuarters } };
  // Kept at its own place too: the metre there decides what the word means.
  return event.onset.num === 0
    ? [...events]
    : [{ ...event, ...start, ramp: null }, ...withoutWordsAt(events, first)];
}

/** The same mark again at its own place, without a second assumption about its words. */
function withoutWordsAt(events: readonly TempoEvent[], place: number): TempoEvent[] {
  return events.map((event, index) =>
    index === place && event.own === null && event.printed === null ? { ...event, words: null } : event,
  );
}

const unmarked: Tempo = {
  quartersPerMinute: unmarkedQuartersPerMinute.quartersPerMinute,
  basis: "assumed",
  slowest: unmarkedQuartersPerMinute.slowest / unmarkedQuartersPerMinute.quartersPerMinute,
  fastest: unmarkedQuartersPerMinute.fastest / unmarkedQuartersPerMinute.quartersPerMinute,
};

/** The tempo before any mark: the one that the heading of the movement names ("II. Larghetto"), else a moderato. */
function findOpening(score: Score): { tempo: Tempo; heading: string | null } {
  for (const heading of [score.movement, score.title]) {
    const meaning = heading === null ? null : readTempoWords(heading);
    if (meaning?.kind === "absolute") return { tempo: tempoOfWord(score, meaning.word, 0), heading };
  }
  return { tempo: unmarked, heading: null };
}

function assumeOpening(layer: TempoLayer, { tempo, heading }: ReturnType<typeof findOpening>): void {
  const position = { barIndex: 0, offset: noQuarters };
  layer.assume("no-tempo", { position }, heading, tempo.quartersPerMinute, () => {
    const reason = heading === null ? "" : `; the heading is “${heading}”`;
    return `No tempo is given at the beginning${reason}: ♩ = ${roundTempo(tempo.quartersPerMinute)} is assumed.`;
  });
}

/**
 * For each event the place where a ramp that begins there ends at the latest: where the next tempo is set, or where the
 * next ramp turns the other way.
 */
function findLimits(events: readonly TempoEvent[], end: Quarters): Quarters[] {
  const limits: Quarters[] = [];
  const next = { set: end, slower: end, faster: end };
  for (const event of events.toReversed()) {
    const other = event.ramp?.direction === "slower" ? next.faster : next.slower;
    limits.push(earlierOf(next.set, other));
    if (setsTempo(event)) next.set = event.onset;
    if (event.ramp) next[event.ramp.direction] = event.onset;
  }
  return limits.reverse();
}

/**
 * Segments from 0 to the end of the piece, with what had to be assumed.
 *
 * @param ritardandoTo share of the tempo that a ritardando reaches.
 */
export function layTempi(
  score: Score,
  found: readonly TempoEvent[],
  ritardandoTo: number,
): { segments: TempoSegment[]; assumptions: TempoAssumption[] } {
  const events = moveFirstToStart(found);
  const opening = findOpening(score);
  const layer = new TempoLayer(score, ritardandoTo, opening.tempo);
  const first = events.find(setsTempo);
  if (first?.onset.num !== 0 || !standsForItself(first)) assumeOpening(layer, opening);
  const limits = findLimits(events, pieceLength(score));
  let rampedUntil = noQuarters;
  events.forEach((event, index) => {
    if (setsTempo(event)) layer.set(event);
    const isTold = event.own !== null || event.printed !== null;
    // "molto rit." inside a ritardando is part of it.
    if (!event.ramp || isTold || compareQuarters(event.onset, rampedUntil) < 0) return;
    const limit = limits[index] ?? event.onset;
    layer.ramp(event, event.ramp, limit);
    rampedUntil = earlierOf(limit, layer.segments.at(-1)?.to ?? limit);
  });
  layer.finish();
  return { segments: layer.segments, assumptions: layer.assumptions };
}
