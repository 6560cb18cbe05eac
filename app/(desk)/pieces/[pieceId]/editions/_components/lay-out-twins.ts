import type { Comparison, DrawnSide } from "@/app/_data/editions/editions-view";
import { keepApart } from "@/app/_ui/strip/keep-apart";
import { makeScale, type Scale } from "@/app/_ui/strip/scale";

interface Span {
  readonly x: number;
  readonly end: number;
}

/** One side as played: every cut closed to a seam. */
export interface TwinRow {
  readonly solo: readonly Span[];
  readonly tuttis: readonly Span[];
  readonly seams: readonly number[];
  readonly end: number;
}

export interface Twins {
  readonly earlier: TwinRow;
  readonly later: TwinRow;
  readonly letters: readonly { readonly x: number; readonly text: string }[];
  /** Where the same place lies on either row. */
  readonly links: readonly { readonly top: number; readonly bottom: number }[];
  /** What one row has and the other has not, from row to row. */
  readonly wedges: readonly { readonly top: Span; readonly bottom: Span }[];
  /** Number of the line in the table, and where it stands between the rows. */
  readonly marks: readonly { readonly number: number; readonly x: number }[];
}

const markPixels = 22;

/** Two versions of a piece on one scale of time, so that the shorter one is seen to be shorter. */
export function layOutTwins({ earlier, later, rows }: Comparison, width: number): Twins {
  const longest = Math.max(playedSeconds(earlier), playedSeconds(later), 1);
  const [top, bottom] = [earlier, later].map((side) =>
    makeScale(side.totalSeconds, (width * playedSeconds(side)) / longest, side.gaps),
  ) as [Scale, Scale]; // two in, two out
  const wedges = rows.flatMap(({ place }) =>
    place ? [{ top: spanOn(top, place.earlier), bottom: spanOn(bottom, place.later) }] : [],
  );
  return {
    earlier: layOutRow(earlier, top),
    later: layOutRow(later, bottom),
    letters: keepApart(
      earlier.letters.map(({ at, text }) => ({ x: top.x(at), text })),
      ({ x, text }) => ({ x, width: text.length * 8 }),
      4,
    ),
    links: [...linkLetters(earlier, later, top, bottom), { top: top.width, bottom: bottom.width }],
    wedges,
    marks: placeMarks(rows, top, bottom, width),
  };
}

/** Letters that either version plays, by name and by how often they came before. */
function linkLetters(earlier: DrawnSide, later: DrawnSide, top: Scale, bottom: Scale): Twins["links"] {
  const isCut = (side: DrawnSide, at: number) => side.gaps.some(({ from, to }) => from <= at && at < to);
  return earlier.letters.flatMap(({ at, text }, index) => {
    const same = later.letters[index];
    if (same?.text !== text || isCut(earlier, at) || isCut(later, same.at)) return [];
    return [{ top: top.x(at), bottom: bottom.x(same.at) }];
  });
}

function playedSeconds({ totalSeconds, gaps }: DrawnSide): number {
  return totalSeconds - gaps.reduce((sum, { from, to }) => sum + to - from, 0);
}

function spanOn(scale: Scale, { from, to }: { from: number; to: number }): Span {
  return { x: scale.x(from), end: scale.x(to) };
}

function layOutRow(side: DrawnSide, scale: Scale): TwinRow {
  const isDrawn = ({ x, end }: Span) => end - x > 1;
  return {
    solo: side.solo.map((stretch) => spanOn(scale, stretch)).filter(isDrawn),
    tuttis: side.tuttis.map((stretch) => spanOn(scale, stretch)).filter(isDrawn),
    seams: side.gaps.map(({ from }) => scale.x(from)),
    end: scale.width,
  };
}

/** Numbers at their places, pushed right where two would overlap, and back where the end has no room. */
function placeMarks(rows: Comparison["rows"], top: Scale, bottom: Scale, width: number): Twins["marks"] {
  const marks = rows
    .flatMap(({ place }, index) => {
      if (!place) return [];
      const [a, b] = [spanOn(top, place.earlier), spanOn(bottom, place.later)];
      return [{ number: index + 1, x: (a.x + a.end + b.x + b.end) / 4 }];
    })
    .sort((a, b) => a.x - b.x);
  let next = markPixels / 2;
  for (const mark of marks) {
    mark.x = Math.max(mark.x, next);
    next = mark.x + markPixels;
  }
  let limit = width - markPixels / 2;
  for (const mark of marks.toReversed()) {
    mark.x = Math.min(mark.x, limit);
    limit = mark.x - markPixels;
  }
  return marks;
}
