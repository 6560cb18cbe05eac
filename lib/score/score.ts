import type { Bar } from "./bar";
import type { Notice } from "./notice";
import type { Part } from "./part";
import type { TempoMark } from "./tempo-mark";

/** A read projection of one written source. Immutable; the source itself stays the truth. */
export interface Score {
  readonly title: string | null;
  readonly movement: string | null;
  readonly composer: string | null;
  readonly bars: readonly Bar[];
  readonly parts: readonly Part[];
  /** By onset. */
  readonly tempoMarks: readonly TempoMark[];
}

/** A score with what was imperfect in its source. */
export interface ReadScore {
  readonly score: Score;
  readonly notices: readonly Notice[];
}
