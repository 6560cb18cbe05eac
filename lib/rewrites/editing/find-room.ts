import type { RewriteEvent, RewriteTerms } from "@/lib/edition/rewrite-terms";
import {
  addQuarters,
  compareQuarters,
  type Quarters,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import { isRest } from "./change-event";
import { endOf, offsetOf } from "./event-place";

/** A stretch of one bar on one staff. */
export interface Stretch {
  readonly barIndex: number;
  readonly staff: number;
  readonly from: Quarters;
  readonly length: Quarters;
}

/** Where something can be written. */
export interface Room {
  readonly voice: number;
  /** The rest that gives way, and what is left of it before and behind. */
  readonly gone: readonly RewriteEvent[];
  readonly left: readonly RewriteEvent[];
}

/** Voices of the upper staff are 1 to 4, those of the others 5 to 8: as `readBarEvents` numbers them. */
const voicesOf = (staff: number): readonly number[] => (staff === 1 ? [1, 2, 3, 4] : [5, 6, 7, 8]);

/** A rest of the staff in which a stretch lies, else a voice that the bar does not use; null when all voices play. */
export function findRoom({ events }: RewriteTerms, stretch: Stretch): Room | null {
  const inBar = events.filter(({ at }) => at.barIndex === stretch.barIndex);
  const rest = inBar.find((event) => event.staff === stretch.staff && isRest(event) && holds(event, stretch));
  if (rest) return { voice: rest.voice, gone: [rest], left: restsAround(rest, stretch) };
  const free = voicesOf(stretch.staff).find((voice) => inBar.every((event) => event.voice !== voice));
  return free === undefined ? null : { voice: free, gone: [], left: [] };
}

function holds(event: RewriteEvent, { from, length }: Stretch): boolean {
  const end = addQuarters(from, length);
  return compareQuarters(offsetOf(event), from) <= 0 && compareQuarters(end, endOf(event)) <= 0;
}

function restsAround(rest: RewriteEvent, { from, length }: Stretch): RewriteEvent[] {
  const between = (start: Quarters, end: Quarters): RewriteEvent[] =>
    compareQuarters(start, end) < 0
      ? [
          {
            ...rest,
            at: { ...rest.at, offset: writeQuarters(start) },
            lasts: writeQuarters(subtractQuarters(end, start)),
          },
        ]
      : [];
  return [...between(offsetOf(rest), from), ...between(addQuarters(from, length), endOf(rest))];
}
