import { describe, expect, it } from "vitest";
import {
  addCounts,
  listAnalyses,
  type MeasuredPiece,
  measureHarmony,
  noCounts,
  percent,
  readAnalysis,
} from "./analysis/measure-harmony";

// Keys and chords against human analyses of songs and of a symphony's first movement. The floors lie a little under what
// was measured (see `npm run bench -- harmony`), so that only a loss breaks them. Analysts do not agree with one another either.

const files = listAnalyses();

describe.skipIf(files.length === 0)("harmony against human analyses", () => {
  let measured: MeasuredPiece[] | null = null;
  const pieces = () => {
    measured ??= measureHarmony();
    return measured;
  };
  const sum = (wanted: (piece: MeasuredPiece) => boolean) =>
    pieces()
      .filter(wanted)
      .reduce((counts, piece) => addCounts(counts, piece.counts), noCounts);

  it("reads sixteen analyses that lie inside their scores", () => {
    expect(files).toHaveLength(16);
    for (const file of files) {
      const { spans, score } = readAnalysis(file);
      expect(spans.length).toBeGreaterThan(10);
      expect(score.bars.length).toBeGreaterThan(10);
    }
  });

  it.each([
    ["held-out", 79],
    ["tuned-on", 79],
  ] as const)(
    "the key of songs, half “%s”: at least %i %% of the quarter notes, and more than profiles alone",
    (half, floor) => {
      const counts = sum((piece) => piece.isSong && piece.half === half);
      expect(percent(counts.keyRight, counts.quarters)).toBeGreaterThanOrEqual(floor);
      expect(counts.keyRight - counts.profileKeyRight).toBeGreaterThan(0.04 * counts.quarters);
    },
  );

  it("the key of the symphony: at least 95 % of the quarter notes", () => {
    const counts = sum(({ isSong }) => !isSong);
    expect(percent(counts.keyRight, counts.quarters)).toBeGreaterThanOrEqual(95);
  });

  it("a key that is called clear is right nine times in ten, and most keys are called so", () => {
    const counts = sum(() => true);
    expect(percent(counts.clearRight, counts.clear)).toBeGreaterThanOrEqual(90);
    expect(counts.clear).toBeGreaterThan(counts.quarters / 2);
  });

  it("chords per beat: the root in 82 %, root and quality in 74 %", () => {
    const counts = sum(() => true);
    expect(percent(counts.rootRight, counts.beats)).toBeGreaterThanOrEqual(82);
    expect(percent(counts.chordRight, counts.beats)).toBeGreaterThanOrEqual(74);
  });
});
