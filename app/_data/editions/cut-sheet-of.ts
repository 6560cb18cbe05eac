import { layInTime, type ScoreInTime } from "@/app/_data/desk/in-time";
import { stripOf } from "@/app/_data/desk/strip-of";
import type { Stretch } from "@/app/_ui/strip/strip-piece";
import { weighCut } from "@/lib/cuts/weigh-cut";
import { toCutSpan } from "@/lib/edition/cut-terms";
import { timeEdition } from "@/lib/edition/time-edition";
import type { CutSheetInput, SheetCut, StripSpan } from "@/lib/engrave/pdf/cut-sheet-input";
import { findClockStretches } from "@/lib/score/clock-stretches";
import type { CutSpan } from "@/lib/score/cut-span";
import { comparePositions } from "@/lib/score/position";
import type { Score } from "@/lib/score/score";
import type { EditionRecord } from "@/lib/store/editions/edition-record";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import type { Tutti } from "@/lib/tutti/find-tuttis";

export type CutSheetMusic = Omit<
  CutSheetInput,
  "sourceMusicXml" | "partRoles" | "paper" | "titleBlock" | "limitSeconds" | "occasion"
>;

/**
 * What a cut sheet says about the music of an edition.
 *
 * @param score of the edition's source, its parts in the edition's roles.
 */
export function cutSheetOf(
  score: Score,
  edition: Pick<EditionRecord, "content" | "cutNumbers">,
  longTuttiBars: number,
): CutSheetMusic {
  const { content, cutNumbers } = edition;
  const inTime = layInTime(score, content.tempo, longTuttiBars);
  const spans = content.cuts.map(toCutSpan);
  const cuts = spans.map((span, index) => sheetCut(inTime, spans, span, cutNumbers[index] ?? index + 1));
  const barCount = score.bars.filter((bar) => !bar.isPickup).length;
  const { totalSeconds, solo, tuttis, letters } = stripOf(inTime, "", []);
  return {
    barCount,
    playedBarCount: barCount - cuts.reduce((sum, cut) => sum + cut.barCount, 0),
    runningSeconds: timeEdition(score, content).seconds,
    strip: {
      totalSeconds,
      soloPlays: solo.map(toStripSpan),
      tuttis: tuttis.map((tutti) => ({ ...toStripSpan(tutti), barCount: tutti.barCount })),
      cuts: spans.flatMap((span, index) =>
        findClockStretches(inTime, span).map((stretch) => ({
          ...toStripSpan(stretch),
          number: cutNumbers[index] ?? index + 1,
        })),
      ),
      letters: letters.map(({ text, at }) => ({ text, seconds: at })),
    },
    cuts,
  };
}

function toStripSpan({ from, to }: Stretch): StripSpan {
  return { startSeconds: from, endSeconds: to };
}

function sheetCut(inTime: ScoreInTime, all: readonly CutSpan[], span: CutSpan, number: number): SheetCut {
  const { barCount, savedSeconds } = weighCut(
    inTime.score,
    inTime.map,
    all.filter((other) => other !== span),
    span,
  );
  return { number, span, barCount, savedSeconds, tutti: tuttiAround(inTime, span)?.place ?? null };
}

/** The tutti in which a cut lies wholly; null when the soloist plays somewhere in it. */
function tuttiAround({ tuttis }: ScoreInTime, span: CutSpan): Tutti | null {
  const isAround = ({ from, to }: Tutti) =>
    comparePositions(from, span.from) <= 0 && comparePositions(span.to, to) <= 0;
  return tuttis.find(isAround) ?? null;
}

/** The next occasion for which the edition is meant; null when none is planned. */
export function nextOccasion(
  performances: readonly PerformanceRecord[],
  number: number,
  today: string,
): CutSheetInput["occasion"] {
  const [next] = performances
    .filter((one) => one.editionNumber === number && one.realSeconds === null && one.on >= today)
    .sort((a, b) => a.on.localeCompare(b.on));
  return next ? { name: next.name, round: null, on: next.on } : null;
}

/** The limit that an edition's occasion sets, else the piece's. */
export function limitOf(
  piece: PieceRecord,
  performances: readonly PerformanceRecord[],
  number: number,
  today: string,
): number | null {
  const occasion = nextOccasion(performances, number, today);
  const planned = performances.find((one) => one.name === occasion?.name && one.on === occasion.on);
  return planned?.limitSeconds ?? piece.limitSeconds;
}
