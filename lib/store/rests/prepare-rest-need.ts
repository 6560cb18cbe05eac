import type { z } from "zod";
import { toPosition, toPositionTerms } from "@/lib/edition/position-terms";
import type { newRestNeedSchema, RestNeedTerms } from "@/lib/edition/rest-need-terms";
import { tempoTermsSchema, toTempoSettings } from "@/lib/edition/tempo-terms";
import { findSoloPart } from "@/lib/score/find-part";
import { onsetOf } from "@/lib/score/onset-of";
import type { Position } from "@/lib/score/position";
import { positionAt } from "@/lib/score/position-at";
import { compareQuarters } from "@/lib/score/quarters";
import { findRestsAt, readRests } from "@/lib/score/rest-left";
import { failure, type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { readTempoMap } from "@/lib/score/tempo-map";
import { cleanLine } from "../clean-text";
import { database } from "../database";
import { readPieceScore } from "../pieces/read-piece-score";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";

type AskedNeed = z.infer<typeof newRestNeedSchema>;

/** The terms of a need that has a rest of the soloist's to lie in. A source never changes, so this holds for good. */
export async function prepareRestNeed(
  viewer: Viewer,
  pieceId: string,
  asked: AskedNeed,
): Promise<Result<RestNeedTerms, StoreProblem>> {
  const read = await readPieceScore(viewer, pieceId);
  if (!read.ok) return read;
  const { score, sourceHash } = read.value;
  if (asked.sourceHash !== sourceHash) return failure(otherSource);
  const why = cleanLine(asked.why);
  if (why === "") return refuse("Say in a word or two what the rest is for.");
  const span = findPlace(score, { from: toPosition(asked.from), to: toPosition(asked.to) });
  if (!span) return refuse(`These bars are not in the piece, which has ${score.bars.length} bars.`);
  const { tempo } = await database().piece.findUniqueOrThrow({
    where: { id: pieceId },
    select: { tempo: true },
  });
  const map = readTempoMap(score, toTempoSettings(tempoTermsSchema.parse(tempo)));
  const reading = readRests(score, map);
  if (findRestsAt(reading, span).length === 0) return refuse(sayNoRest(score, span.from));
  const { needs } = asked;
  return success({
    ...{ sourceHash, needs, why },
    from: toPositionTerms(span.from),
    to: toPositionTerms(span.to),
  });
}

interface Span {
  readonly from: Position;
  readonly to: Position;
}

/** One place has one spelling: the end of a bar is the start of the next. Null outside the piece. */
function findPlace(score: Score, span: Span): Span | null {
  const isInside = ({ barIndex, offset }: Position) => {
    const bar = score.bars[barIndex];
    return bar !== undefined && compareQuarters(offset, bar.length) <= 0;
  };
  if (!isInside(span.from) || !isInside(span.to)) return null;
  const place = (position: Position) => positionAt(score, onsetOf(score, position));
  return { from: place(span.from), to: place(span.to) };
}

function sayNoRest(score: Score, { barIndex }: Position): string {
  if (!findSoloPart(score)) return "No part of this piece is the solo part. Say first which one is.";
  const { label } = score.bars[barIndex] ?? { label: "" };
  return `The soloist does not rest at bar ${label}. Choose a place in which the solo part is silent.`;
}

const refuse = (sentence: string) => failure<StoreProblem>({ kind: "invalid-input", sentence });

/** The bars on which the need was noted are not the bars of the piece's source. */
const otherSource: StoreProblem = {
  kind: "stale-terms",
  sentence: "This rest was noted on another file. Open the piece again and note it anew.",
};
