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
  return order.bars.flatMap((performed) =>
    marks.flatMap((mark) => {
      const isHere =
        mark.barIndex === performed.barIndex &&
        compareQuarters(mark.offset, performed.from) >= 0 &&
        compareQuarters(mark.offset, performed.to) < 0;
      const at = addQuarters(performed.start, subtractQuarters(mark.offset, performed.from));
      return isHere ? [{ at, means: mark.means }] : [];
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
