import type { CutSpan } from "@/lib/score/cut-span";
import { leaveOut } from "@/lib/score/leave-out";
import type { Part } from "@/lib/score/part";
import { findPerformedOrder } from "@/lib/score/performed-order";
import type { Score } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import type { TempoSettings } from "@/lib/score/tempo-settings";
import { assessTurn, type TurnMoment } from "./assess-turn";
import { findCrossings } from "./find-crossings";
import { readHandWork } from "./hand-work";

/** What is printed, for somebody to play from. */
export interface PrintedMusic {
  /** Of the source, in its roles. */
  readonly score: Score;
  readonly cuts: readonly CutSpan[];
  readonly tempo: Partial<TempoSettings>;
  readonly reader: "pianist" | "soloist";
  /** Ids of the bars as printed, which are those of the source. */
  readonly barIds: readonly string[];
}

/**
 * The turns that a page break before each printed bar brings about: when the performance passes it, at the duo's tempo and with
 * the cuts made, and what the reader's hands do there.
 */
export function readTurns(printed: PrintedMusic): (barIndex: number) => readonly TurnMoment[] {
  const { score, cuts, tempo, reader } = printed;
  const order = leaveOut(score, findPerformedOrder(score), cuts);
  const work = readHandWork(score, order, readTempoMap(score, tempo), partsOf(score.parts, reader), reader);
  const crossings = findCrossings(order, printedPlace(printed));
  const known = new Map<number, readonly TurnMoment[]>();
  return (barIndex) => {
    const moments =
      known.get(barIndex) ??
      (crossings.get(barIndex) ?? []).map(({ performedIndex, direction }) =>
        assessTurn(work, work.timeline.bars[performedIndex]?.startSeconds ?? 0, direction),
      );
    known.set(barIndex, moments);
    return moments;
  };
}

/** The reader's own parts; a source in which nobody has such a part is played from as a whole. */
function partsOf(parts: readonly Part[], reader: "pianist" | "soloist"): readonly Part[] {
  const own = parts.filter(({ role }) => role === (reader === "pianist" ? "reduction" : "solo"));
  return own.length > 0 ? own : parts;
}

/** Where a bar of the source is printed. The second half of a bar that a cut joined stands in the first's. */
function printedPlace({ score, barIds }: PrintedMusic): (barIndex: number) => number {
  const placeOfId = new Map(barIds.map((id, place) => [id, place]));
  let last = 0;
  const places = score.bars.map(({ id }) => {
    last = placeOfId.get(id) ?? last;
    return last;
  });
  return (barIndex) => places[barIndex] ?? last;
}
