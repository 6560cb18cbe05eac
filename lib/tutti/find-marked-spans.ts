import { groupByBar } from "@/lib/score/group-by-bar";
import type { PerformedOrder } from "@/lib/score/performed-order";
import {
  addQuarters,
  compareQuarters,
  noQuarters,
  type Quarters,
  subtractQuarters,
} from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import type { SilentSpan } from "@/lib/score/silent-spans";

interface Mark {
  readonly barIndex: number;
  /** Offset in the bar. */
  readonly offset: Quarters;
  readonly means: "tutti" | "solo";
}

/** Only the bare words: "Cl. SOLO." names an instrument of the orchestra. */
function meaningOf(text: string): Mark["means"] | null {
  const match = /^\W*(tutti|solo)\W*$/i.exec(text.trim());
  return match ? (match[1]?.toLowerCase() as Mark["means"]) : null;
}

function findMarks(score: Score): Mark[] {
  const marks = score.parts.flatMap((part) =>
    part.directions.flatMap((direction): Mark[] => {
      const means = direction.kind === "words" ? meaningOf(direction.text) : null;
      const start = score.bars[direction.barIndex]?.start;
      if (!means || !start) return [];
      return [{ barIndex: direction.barIndex, offset: subtractQuarters(direction.onset, start), means }];
    }),
  );
  return marks.toSorted((a, b) => a.barIndex - b.barIndex || compareQuarters(a.offset, b.offset));
}

/** The marks in performed time. */
function placeMarks(order: PerformedOrder, marks: readonly Mark[]): { at: Quarters; means: Mark["means"] }[] {
  const byBar = groupByBar(marks);
  return order.bars.flatMap((performed) =>
    (byBar.get(performed.barIndex) ?? []).flatMap(({ offset, means }) => {
      const sounds =
        compareQuarters(offset, performed.from) >= 0 && compareQuarters(offset, performed.to) < 0;
      return sounds
        ? [{ at: addQuarters(performed.start, subtractQuarters(offset, performed.from)), means }]
        : [];
    }),
  );
}

/**
 * Spans from each word Tutti to the next word Solo, for scores without a separate solo part. Before the first word
 * the other of the two is in force. Empty when no such word is printed.
 */
export function findMarkedSpans(score: Score, order: PerformedOrder): SilentSpan[] {
  const marks = placeMarks(order, findMarks(score));
  const spans: SilentSpan[] = [];
  let from: Quarters | null = marks[0]?.means === "solo" ? noQuarters : null;
  for (const { at, means } of marks) {
    if (means === "tutti") from ??= at;
    else if (from) {
      if (compareQuarters(from, at) < 0) spans.push({ from, to: at, lastNoteId: null, nextNoteId: null });
      from = null;
    }
  }
  if (from) spans.push({ from, to: order.length, lastNoteId: null, nextNoteId: null });
  return spans;
}
