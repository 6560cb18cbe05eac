import type { Direction } from "@/lib/score/direction";
import { isEqualQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { TempoMark } from "@/lib/score/tempo-mark";

export type WordsDirection = Extract<Direction, { kind: "words" }>;

/** A tempo mark and the printed words that it stands beside, which are written as one direction. */
export interface AttachedTempo {
  readonly mark: TempoMark;
  readonly words: readonly WordsDirection[];
}

export interface Tempi {
  /** By the first of their words. */
  readonly attached: ReadonlyMap<Direction, AttachedTempo>;
  /** Those that stand beside no words. */
  readonly alone: readonly TempoMark[];
}

/** Finds for each tempo mark with words the directions, in any part, that print them. */
export function attachTempi(score: Score): Tempi {
  const attached = new Map<Direction, AttachedTempo>();
  const alone: TempoMark[] = [];
  for (const mark of score.tempoMarks) {
    const words = mark.words === null ? null : findWords(score, mark, mark.words);
    const first = words?.[0];
    if (words && first) attached.set(first, { mark, words });
    else alone.push(mark);
  }
  return { attached, alone };
}

/** Words directions in a row, of one part and place, that together read as the mark does. */
function findWords(score: Score, mark: TempoMark, text: string): WordsDirection[] | null {
  for (const part of score.parts) {
    const here = part.directions.filter(
      (direction): direction is WordsDirection =>
        direction.kind === "words" &&
        direction.barIndex === mark.barIndex &&
        isEqualQuarters(direction.onset, mark.onset),
    );
    for (let first = 0; first < here.length; first += 1) {
      for (let end = first + 1; end <= here.length; end += 1) {
        const run = here.slice(first, end);
        const isOneStaff = run.every(({ staff }) => staff === run[0]?.staff);
        if (isOneStaff && run.map((direction) => direction.text).join(" ") === text) return run;
      }
    }
  }
  return null;
}
