import { type Heard, listen } from "@/lib/cuts/join/listen";
import { type TempoTerms, toTempoSettings } from "@/lib/edition/tempo-terms";
import type { ReadProblem } from "@/lib/musicxml/read-problem";
import { readScore } from "@/lib/musicxml/read-score";
import { assignRoles } from "@/lib/score/assign-roles";
import type { PartRole } from "@/lib/score/part";
import { findPerformedOrder, type PerformedOrder } from "@/lib/score/performed-order";
import { type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { readTempoMap, type TempoMap } from "@/lib/score/tempo-map";
import { findTuttis, type Tutti } from "@/lib/tutti/find-tuttis";

/** What of a piece decides how its cuts, rests and breaths are judged. */
export interface StudyTerms {
  /** Part id → what the part is for. */
  readonly partRoles: Readonly<Record<string, PartRole>>;
  readonly tempo: TempoTerms;
  /** A tutti of this many bars or more is a long one. */
  readonly longTuttiBars: number;
}

/** One piece, read once, so that any number of questions can be asked of it. */
export interface Study {
  readonly score: Score;
  readonly order: PerformedOrder;
  readonly map: TempoMap;
  readonly tuttis: readonly Tutti[];
  /** All that is heard in it. Worked out when it is first asked for: about a second for 600 bars. */
  readonly heard: () => Heard;
}

/** A study of a score that is read already, its parts in their roles. */
export function studyScore(score: Score, { tempo, longTuttiBars }: Omit<StudyTerms, "partRoles">): Study {
  const order = findPerformedOrder(score);
  const map = readTempoMap(score, toTempoSettings(tempo));
  let heard: Heard | null = null;
  return {
    score,
    order,
    map,
    tuttis: findTuttis(score, order, map, { longBars: longTuttiBars }),
    heard: () => {
      heard ??= listen(score, { map });
      return heard;
    },
  };
}

/** @param bytes of a .musicxml, .xml or .mxl file. */
export function openStudy(bytes: Uint8Array, terms: StudyTerms): Result<Study, ReadProblem> {
  const read = readScore(bytes);
  return read.ok ? success(studyScore(assignRoles(read.value.score, terms.partRoles), terms)) : read;
}
