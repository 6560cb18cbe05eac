import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readScore } from "@/lib/musicxml/read-score";
import type { CutSpan } from "@/lib/score/cut-span";
import { groupByBar } from "@/lib/score/group-by-bar";
import { leaveOut } from "@/lib/score/leave-out";
import type { Note } from "@/lib/score/note";
import { findPerformedOrder, type PerformedOrder } from "@/lib/score/performed-order";
import { pieceLength } from "@/lib/score/piece-length";
import { positionAt } from "@/lib/score/position-at";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  type Quarters,
  scaleQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import { shareTremolos } from "@/lib/score/share-tremolos";
import { readTempoMap, type TempoMap } from "@/lib/score/tempo-map";
import { writtenSeconds } from "@/lib/score/written-seconds";
import { plainManner } from "@/lib/sound/listen-manner";
import type { ListenRequest } from "@/lib/sound/listen-request";
import { readSchedule } from "@/lib/sound/read-schedule";
import type { Schedule } from "@/lib/sound/schedule";
import { CUT_TRAPS, GOOD_CUT } from "@/seed/concertino/planted";
import { arbitraryScore } from "../../builders/arbitrary-score";
import { corpusFolder, readCorpusFile } from "../../corpus/corpus-folder";
import { concertino, cutOf } from "../cuts/join/hear-concertino";

/**
 * When each written note may be struck, in milliseconds, by the page: seconds from its beginning, straight from the tempo
 * map, less what is not played before.
 */
function clockOnsets(score: Score, map: TempoMap, order: PerformedOrder): Map<string, number[]> {
  const pageMs = readPage(map);
  const byBar = groupByBar(score.parts.flatMap(({ notes }) => notes));
  const onsets = new Map<string, number[]>();
  let now = 0;
  for (const piece of order.bars) {
    const bar = score.bars[piece.barIndex];
    if (!bar) continue;
    const [from, to] = [addQuarters(bar.start, piece.from), addQuarters(bar.start, piece.to)];
    for (const note of byBar.get(piece.barIndex) ?? []) {
      if (isBesideClock(note)) continue;
      if (compareQuarters(note.onset, from) < 0 || compareQuarters(note.onset, to) >= 0) continue;
      const known = onsets.get(note.id) ?? [];
      onsets.set(note.id, [...known, now + pageMs(note.onset) - pageMs(from)]);
    }
    now += pageMs(to) - pageMs(from);
  }
  return onsets;
}

/** Of a tremolo there are many, and of a rolled chord only the lowest comes on its beat. */
const isBesideClock = ({ isGrace, tremolo, isArpeggiated }: Note): boolean =>
  isGrace || tremolo !== null || isArpeggiated;

/** Milliseconds from the beginning of the page. */
function readPage(map: TempoMap): (written: Quarters) => number {
  const known = new Map<string, number>();
  return (written) => {
    const key = writeQuarters(written);
    const ms = known.get(key) ?? 1000 * writtenSeconds(map, noQuarters, written);
    known.set(key, ms);
    return ms;
  };
}

/** Notes that wait for grace notes on the beat, by what they share with these. */
function waitingPlaces(score: Score): Set<string> {
  const graces = score.parts.flatMap(({ notes }) => notes.filter(({ isGrace }) => isGrace));
  return new Set(graces.map(({ staff, voice, onset }) => `${staff} ${voice} ${writeQuarters(onset)}`));
}

interface Compared {
  readonly count: number;
  readonly largestMs: number;
}

/** Largest distance between what is scheduled and the clock; notes that wait for grace notes, tremolos and rolls aside. */
function compareToClock(printed: Score, map: TempoMap, cuts: readonly CutSpan[]): Compared {
  // The sign on one note of a chord is meant for all of them.
  const parts = printed.parts.map((part) => ({ ...part, notes: shareTremolos(part.notes) }));
  const score = { ...printed, parts };
  const order = leaveOut(score, findPerformedOrder(score), cuts);
  const clock = clockOnsets(score, map, order);
  const waiting = waitingPlaces(score);
  const notes = new Map(score.parts.flatMap(({ notes: all }) => all.map((note) => [note.id, note] as const)));
  const schedule = readSchedule(score, map, { kind: "piece", cuts, from: null });
  const starts = [0, ...schedule.seams.map(({ seconds }) => seconds)];
  let [count, largestMs] = [0, 0];
  for (const { noteId, isGrace, onsetSeconds } of schedule.notes) {
    const note = notes.get(noteId);
    if (!note || isGrace || isBesideClock(note)) continue;
    const key = `${note.staff} ${note.voice} ${writeQuarters(note.onset)}`;
    const waits = waiting.has(key) && starts.some((start) => Math.abs(onsetSeconds - start) < 0.5);
    const known = clock.get(noteId) ?? [];
    expect(known.length, noteId).toBeGreaterThan(0);
    if (waits) continue;
    count += 1;
    largestMs = Math.max(largestMs, Math.min(...known.map((ms) => Math.abs(ms - onsetSeconds * 1000))));
  }
  return { count, largestMs };
}

/** Sums of many lengths in two orders; a millisecond is what is promised. */
const tolerableMs = 0.001;

const corpus = [
  "solo-piano/wieniawski_op4.mxl",
  "solo-piano/dobrzynski_monbar_16_aria.mxl",
  "songs/schumann_dichterliebe_9.mxl",
  "songs/bantock_old_fisherman.mxl",
  "pairs/chopin_op11_1_piano_with_tutti_reduction.mxl",
];

function readFile(file: string): Score {
  const read = readScore(readCorpusFile(file));
  if (!read.ok) throw new Error(`${file}: ${read.problem.kind}`);
  return read.value.score;
}

describe("onsets", () => {
  it("are those of the tempo map in the demo, within a millisecond", () => {
    const { count, largestMs } = compareToClock(concertino, readTempoMap(concertino), []);
    expect(count).toBeGreaterThan(3_000);
    expect(largestMs).toBeLessThan(tolerableMs);
  });

  it.each([GOOD_CUT, ...CUT_TRAPS])(
    "are those of the tempo map behind the cut from bar $from.bar to $to.bar",
    (cut) => {
      const { largestMs } = compareToClock(concertino, readTempoMap(concertino), [cutOf(cut)]);
      // The clock rounds each place once, so at a cut two roundings meet.
      expect(largestMs).toBeLessThan(1.5);
    },
  );

  it.skipIf(corpusFolder === null).each(corpus)("are those of the tempo map in %s", (file) => {
    const score = readFile(file);
    const map = readTempoMap(score);
    const { count, largestMs } = compareToClock(score, map, []);
    expect(count).toBeGreaterThan(500);
    expect(largestMs).toBeLessThan(tolerableMs);
  });
});

const share = fc.integer({ min: 0, max: 32 });

/** A cut between two places of the piece, given as shares of it. */
function cutBetween(score: Score, a: number, b: number): CutSpan {
  const place = (part: number) => positionAt(score, scaleQuarters(pieceLength(score), part, 32));
  return { from: place(Math.min(a, b)), to: place(Math.max(a, b)) };
}

/** A breath of rounding: seconds are sums of many lengths. */
const epsilon = 1e-6;

function expectSound(schedule: Schedule): void {
  const { notes, seams, places, sections, totalSeconds } = schedule;
  for (const { onsetSeconds, endSeconds, velocity, midi } of notes) {
    const section = sections.find((one) => onsetSeconds < one.endSeconds + epsilon);
    expect(onsetSeconds).toBeGreaterThanOrEqual((section?.startSeconds ?? 0) - epsilon);
    expect(endSeconds).toBeGreaterThan(onsetSeconds);
    expect(endSeconds).toBeLessThanOrEqual((section?.endSeconds ?? 0) + epsilon);
    expect(velocity).toBeGreaterThanOrEqual(1);
    expect(velocity).toBeLessThanOrEqual(127);
    expect(Number.isInteger(midi)).toBe(true);
    for (const { seconds } of seams)
      expect(onsetSeconds < seconds - epsilon && endSeconds > seconds + epsilon).toBe(false);
  }
  for (const [index, { startSeconds, endSeconds }] of places.entries()) {
    const next = places[index + 1]?.startSeconds ?? totalSeconds;
    const isGap = sections.some((section) => Math.abs(section.endSeconds - endSeconds) < epsilon);
    if (!isGap) expect(endSeconds).toBeCloseTo(next, 6);
    expect(endSeconds).toBeGreaterThanOrEqual(startSeconds - epsilon);
  }
}

describe("laws of every schedule", () => {
  it("onsets are those of the tempo map, whatever is cut", () => {
    fc.assert(
      fc.property(arbitraryScore, share, share, (score, a, b) => {
        const cuts = [cutBetween(score, a, b)];
        const map = readTempoMap(score);
        expect(compareToClock(score, map, cuts).largestMs).toBeLessThan(tolerableMs);
      }),
      { numRuns: 100 },
    );
  });

  it("no note lies outside its section or over a seam, and places follow one another", () => {
    fc.assert(
      fc.property(
        arbitraryScore,
        share,
        share,
        fc.integer({ min: 30, max: 150 }),
        (score, a, b, tempoPercent) => {
          const cuts = [cutBetween(score, a, b)];
          const request: ListenRequest = { kind: "piece", cuts, from: null };
          expectSound(readSchedule(score, readTempoMap(score), request, { ...plainManner, tempoPercent }));
        },
      ),
      { numRuns: 100 },
    );
  });

  it("both sides of a join in turn are the one and the other", () => {
    fc.assert(
      fc.property(arbitraryScore, share, share, (score, a, b) => {
        const cut = cutBetween(score, a, b);
        const isWhole =
          compareQuarters(scaleQuarters(pieceLength(score), Math.abs(a - b), 32), pieceLength(score)) === 0;
        fc.pre(a !== b && !isWhole && pieceLength(score).num > 0 && isPlayed(score, cut));
        const map = readTempoMap(score);
        const hear = (how: "with-the-cut" | "without-it" | "in-turn") =>
          readSchedule(score, map, { kind: "join", cut, cuts: [], barsBefore: 2, barsAfter: 2, how });
        const [withIt, without, both] = [hear("with-the-cut"), hear("without-it"), hear("in-turn")];
        expectSound(both);
        expect(both.notes).toHaveLength(withIt.notes.length + without.notes.length);
        expect(both.sections[1]?.startSeconds).toBeGreaterThan(withIt.totalSeconds + 1);
        expect(both.totalSeconds).toBeCloseTo(
          (both.sections[1]?.startSeconds ?? Number.NaN) + without.totalSeconds,
          6,
        );
        expect(withIt.totalSeconds).toBeLessThan(without.totalSeconds + epsilon);
      }),
      { numRuns: 100 },
    );
  });
});

/** Whether anything of a cut is played at all: some scores have endings that no round reaches. */
function isPlayed(score: Score, cut: CutSpan): boolean {
  const order = findPerformedOrder(score);
  const left = leaveOut(score, order, [cut]);
  return compareQuarters(left.length, order.length) < 0;
}
