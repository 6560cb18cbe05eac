import type { LocalChord } from "@/lib/harmony/find-chords";
import type { LocalKey } from "@/lib/harmony/find-local-keys";
import { frameIndexAt } from "@/lib/harmony/frames";
import type { CutSpan } from "@/lib/score/cut-span";
import { onsetOf } from "@/lib/score/onset-of";
import { pieceLength } from "@/lib/score/piece-length";
import { compareQuarters, isEqualQuarters, type Quarters } from "@/lib/score/quarters";
import type { Heard } from "./listen";
import type { Place } from "./places";
import type { Side } from "./side";

/** A cut with all that its rows look at, found once. */
export interface JoinEdges {
  readonly heard: Heard;
  readonly cut: CutSpan;
  /** Written time of both ends, exact and in ticks. */
  readonly fromTime: Quarters;
  readonly toTime: Quarters;
  readonly fromTicks: number;
  readonly toTicks: number;
  readonly fromPlace: Place;
  readonly toPlace: Place;
  /** Null where the piece begins after the cut, or ends with it. */
  readonly before: Side | null;
  readonly after: Side | null;
  readonly keys: { readonly before: LocalKey; readonly after: LocalKey } | null;
  readonly chordBefore: LocalChord | null;
  readonly chordAfter: LocalChord | null;
}

export function findJoinEdges(heard: Heard, cut: CutSpan): JoinEdges {
  const { score, sides, chords } = heard;
  const [fromTime, toTime] = [onsetOf(score, cut.from), onsetOf(score, cut.to)];
  const [fromPlace, toPlace] = [heard.places.at(cut.from), heard.places.at(cut.to)];
  const [before, after] = [fromPlace.keyBefore, toPlace.keyAfter];
  const isEnd = isEqualQuarters(toTime, pieceLength(score));
  const last = frameIndexAt(chords, fromTime);
  const lastStarts = chords[last] && compareQuarters((chords[last] as LocalChord).onset, fromTime) === 0;
  const next = frameIndexAt(chords, toTime);
  const nextGoesOn = chords[next] && compareQuarters((chords[next] as LocalChord).end, toTime) > 0;
  return {
    heard,
    cut,
    fromTime,
    toTime,
    fromTicks: sides.timeOf(cut.from),
    toTicks: sides.timeOf(cut.to),
    fromPlace,
    toPlace,
    before: fromTime.num === 0 ? null : fromPlace.before,
    after: isEnd ? null : toPlace.after,
    keys: before && after ? { before, after } : null,
    chordBefore: fromTime.num === 0 ? null : (chords[lastStarts ? last - 1 : last] ?? null),
    chordAfter: isEnd ? null : (chords[nextGoesOn ? next : next + 1] ?? null),
  };
}

/** The printed label of a bar, as it is spoken of. */
export function sayBar({ score }: Heard, barIndex: number): string {
  return `bar ${score.bars[barIndex]?.label ?? ""}`;
}
