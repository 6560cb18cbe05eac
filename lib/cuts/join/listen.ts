import { readCutRules } from "@/lib/cuts/check-cut";
import { chordNumber } from "@/lib/harmony/chord-shapes";
import { isAdjacent, joinChords } from "@/lib/harmony/chord-spans";
import { type Cadence, findCadences } from "@/lib/harmony/find-cadences";
import { findChords, type LocalChord } from "@/lib/harmony/find-chords";
import { findHypermetre, type Hypermetre } from "@/lib/harmony/find-hypermetre";
import { findLocalKeys, type LocalKey } from "@/lib/harmony/find-local-keys";
import { findPhrases, type PhraseStart } from "@/lib/harmony/find-phrases";
import { beatOf } from "@/lib/score/beat-of";
import { findFermatas } from "@/lib/score/find-fermatas";
import { findSoloPart } from "@/lib/score/find-part";
import { findPerformedOrder, type PerformedOrder } from "@/lib/score/performed-order";
import type { Position } from "@/lib/score/position";
import { addQuarters, compareQuarters, noQuarters, type Quarters, writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { readTempoMap, type TempoMap } from "@/lib/score/tempo-map";
import type { TempoSegment } from "@/lib/score/tempo-segment";
import { ChordSuccessions } from "./chord-successions";
import { Likenesses } from "./likenesses";
import { LiteralRepeats } from "./literal-repeats";
import { OwnJumps } from "./own-jumps";
import { Places, phraseBegins } from "./places";
import { SideHearer } from "./side-hearer";
import { Smoothness } from "./smoothness";
import { findSoloStretches, type SoloStretch } from "./solo-stretches";
import { findThemes, type Theme } from "./themes";

/** All that is heard in a score, once, for judging any number of joins. */
export interface Heard {
  readonly score: Score;
  readonly map: TempoMap;
  readonly order: PerformedOrder;
  /** Stretches of the tempo map outside fermatas: the tempo that the music is in. */
  readonly tempi: readonly TempoSegment[];
  readonly keys: readonly LocalKey[];
  readonly chords: readonly LocalChord[];
  readonly cadences: readonly Cadence[];
  readonly phrases: readonly PhraseStart[];
  readonly hypermetre: Hypermetre;
  readonly themes: readonly Theme[];
  /** Where the soloist plays, in written order; empty without a solo part. */
  readonly solo: readonly SoloStretch[];
  readonly sides: SideHearer;
  /** Which chords follow which, anywhere in the piece. */
  readonly successions: ChordSuccessions;
  readonly smoothness: Smoothness;
  readonly likenesses: Likenesses;
  /** Passages that come twice in a row. */
  readonly repeats: LiteralRepeats;
  readonly jumps: OwnJumps;
  readonly places: Places;
  /** As `checkCut`, with the score's signs read once. */
  readonly checkCut: ReturnType<typeof readCutRules>;
}

export interface ListenOptions {
  /** The duo's tempi; the printed ones when left out. */
  readonly map?: TempoMap;
}

/** The beat in which most of the piece is counted: keys are heard beat by beat. */
function usualBeat(score: Score): Quarters {
  const lengths = new Map<string, { beat: Quarters; length: Quarters }>();
  for (const bar of score.bars) {
    const beat = beatOf(bar.metre);
    const name = writeQuarters(beat);
    const before = lengths.get(name)?.length ?? noQuarters;
    lengths.set(name, { beat, length: addQuarters(before, bar.length) });
  }
  const [most] = [...lengths.values()].sort((a, b) => compareQuarters(b.length, a.length));
  return most?.beat ?? beatOf({ groups: [], symbol: null });
}

function findSuccessions(chords: readonly LocalChord[]): ChordSuccessions {
  const spans = joinChords(chords);
  const pairs = spans.flatMap((next, index) => {
    const before = spans[index - 1];
    const follows = before !== undefined && isAdjacent(before, next);
    return follows ? [{ before: chordNumber(before.last), after: chordNumber(next.first) }] : [];
  });
  return new ChordSuccessions(pairs);
}

function steadyTempi(score: Score, { segments }: TempoMap): TempoSegment[] {
  const held = findFermatas(score);
  const isHeld = ({ from, to }: TempoSegment) =>
    held.some(({ onset, end }) => compareQuarters(onset, from) <= 0 && compareQuarters(to, end) <= 0);
  return segments.filter((segment) => !isHeld(segment));
}

/**
 * Hears a score: keys, chords, cadences, phrases, large bars, themes and both sides of every bar line, those of other
 * places when they are asked for. The result keeps what it worked out, so it is made once and used for every cut of the piece.
 */
export function listen(score: Score, options: ListenOptions = {}): Heard {
  const keys = findLocalKeys(score, { step: usualBeat(score) });
  const chords = findChords(score, keys);
  const cadences = findCadences(score, chords);
  const phrases = findPhrases(score, cadences);
  const sides = new SideHearer(score);
  const hypermetre = findHypermetre(score, phrases, 4);
  const places = new Places({ score, keys, phrases, hypermetre, sides });
  const beginsPhrase = (position: Position) => places.at(position).phraseStart >= phraseBegins;
  const map = options.map ?? readTempoMap(score);
  const smoothness = new Smoothness(sides, beginsPhrase);
  const likenesses = new Likenesses(sides);
  // Every join is measured against the piece's own bar lines, so that no search should wait for them.
  smoothness.at(noQuarters);
  likenesses.from(noQuarters);
  return {
    score,
    map,
    tempi: steadyTempi(score, map),
    order: findPerformedOrder(score),
    keys,
    chords,
    cadences,
    phrases,
    hypermetre,
    themes: findThemes(score),
    solo: findSoloStretches(score, findSoloPart(score)),
    sides,
    successions: findSuccessions(chords),
    smoothness,
    likenesses,
    repeats: new LiteralRepeats(sides),
    jumps: new OwnJumps(sides),
    places,
    checkCut: readCutRules(score),
  };
}
