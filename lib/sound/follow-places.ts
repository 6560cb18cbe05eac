import { performedEnd } from "@/lib/score/performed-bars-between";
import type { PerformedBar, PerformedOrder } from "@/lib/score/performed-order";
import {
  addQuarters,
  compareQuarters,
  type Quarters,
  subtractQuarters,
  writeQuarters,
} from "@/lib/score/quarters";
import type { Timeline } from "@/lib/score/timeline";
import type { ScheduledPlace } from "./schedule";
import type { StruckNote } from "./struck-notes";

/** Where the whole piece, nothing cut, has each bar on its clock. */
export interface PieceClock {
  readonly order: PerformedOrder;
  readonly timeline: Timeline;
}

/**
 * The places of a take, from attack to attack and from bar line to bar line, with the seconds at which the strip has them.
 *
 * @param struck what is heard, by onset.
 * @param secondsAt seconds of a performed time of the take.
 */
export function listPlaces(
  order: PerformedOrder,
  struck: readonly StruckNote[],
  secondsAt: (performed: Quarters) => number,
  { order: whole, timeline }: PieceClock,
): ScheduledPlace[] {
  const attacks = new Map<string, StruckNote>();
  for (const one of struck) {
    const key = writeQuarters(one.from);
    if (!attacks.has(key)) attacks.set(key, one);
  }
  const moments = [...attacks.values()].map(({ from }) => from).sort(compareQuarters);
  const wholeBars = new Map(whole.bars.map((bar) => [barKey(bar), bar]));
  let next = 0;
  return order.bars.flatMap((piece) => {
    const end = performedEnd(piece);
    const starts = [piece.start];
    for (; next < moments.length; next += 1) {
      const moment = moments[next] as Quarters; // the loop ends with the list
      if (compareQuarters(moment, end) >= 0) break;
      if (compareQuarters(moment, piece.start) > 0) starts.push(moment);
    }
    const wholeBar = wholeBars.get(barKey(piece));
    return starts.map((from, index): ScheduledPlace => {
      const to = starts[index + 1] ?? end;
      const inBar = (performed: Quarters) =>
        addQuarters(piece.from, subtractQuarters(performed, piece.start));
      const onStrip = (performed: Quarters) =>
        wholeBar ? timeline.secondsAtPerformed(performedIn(wholeBar, inBar(performed))) : 0;
      return {
        ...{ barIndex: piece.barIndex, pass: piece.pass, offset: inBar(from) },
        ...{ startSeconds: secondsAt(from), endSeconds: secondsAt(to) },
        ...{ pieceFrom: onStrip(from), pieceTo: onStrip(to) },
        noteId: attacks.get(writeQuarters(from))?.note.id ?? null,
      };
    });
  });
}

const barKey = ({ barIndex, pass }: PerformedBar) => `${barIndex} ${pass}`;

const performedIn = (bar: PerformedBar, offset: Quarters) =>
  addQuarters(bar.start, subtractQuarters(offset, bar.from));
