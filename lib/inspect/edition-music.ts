import { checkCut } from "@/lib/cuts/check-cut";
import { nameCut } from "@/lib/cuts/name-cut";
import { namePosition } from "@/lib/cuts/name-position";
import { findOverlap } from "@/lib/cuts/overlapping-cuts";
import { sayCutProblem } from "@/lib/cuts/say-cut-problem";
import type { ArchivedEdition, ArchivedSource } from "@/lib/edition/archive/edition-archive";
import { type CutTerms, toCutSpan } from "@/lib/edition/cut-terms";
import type { PlaceNames } from "@/lib/edition/edition-difference";
import { findMarkFault } from "@/lib/edition/find-mark-fault";
import { findTempoFault } from "@/lib/edition/find-tempo-fault";
import { isSameCut } from "@/lib/edition/pair-cuts";
import { sayReadProblem } from "@/lib/musicxml/read-problem";
import { readScore } from "@/lib/musicxml/read-score";
import type { Score } from "@/lib/score/score";

/** An edition beside the music it was made on, or why it cannot be laid beside it. */
export interface FittedEdition {
  readonly edition: ArchivedEdition;
  /** Null when there are faults. */
  readonly score: Score | null;
  /** A sentence each. */
  readonly faults: readonly string[];
}

/** Every edition with its source, each source read once: whether its cuts, tempi and marks fit that music. */
export function fitEditions(
  editions: readonly ArchivedEdition[],
  sources: readonly ArchivedSource[],
): FittedEdition[] {
  const scores = new Map(sources.map(({ hash, bytes }) => [hash, readScore(bytes)]));
  return editions.map((edition) => {
    const { number, content } = edition;
    const read = scores.get(content.sourceHash);
    if (!read) return { edition, score: null, faults: [`№ ${number} has no music to be played in.`] };
    if (!read.ok) {
      const why = sayReadProblem(read.problem);
      return { edition, score: null, faults: [`The music of № ${number} cannot be read. ${why}`] };
    }
    const { score } = read.value;
    const faults = findFaults(score, edition);
    return { edition, score: faults.length === 0 ? score : null, faults };
  });
}

function findFaults(score: Score, { number, content }: ArchivedEdition): string[] {
  const cuts = content.cuts.map(toCutSpan);
  const impossible = cuts.flatMap((cut, index) => {
    const checked = checkCut(score, cut);
    if (!checked.ok)
      return [`Cut ${index + 1} of № ${number} cannot be made. ${sayCutProblem(checked.problem)}`];
    const other = findOverlap(cuts.slice(0, index), cut);
    return other ? [`Cut ${index + 1} of № ${number} overlaps cut ${cuts.indexOf(other) + 1}.`] : [];
  });
  const tempo = findTempoFault(score, content.tempo);
  const mark = findMarkFault(score, content);
  return [
    ...impossible,
    ...(tempo === null ? [] : [`The tempi of № ${number} cannot be played. ${tempo}`]),
    ...(mark === null ? [] : [`What is written in № ${number} does not fit. ${mark}`]),
  ];
}

/** How places are called, and the cuts by the edition they stand in: "Cut 2 of № 1". */
export function namesIn(score: Score, number: number, cuts: readonly CutTerms[]): PlaceNames {
  return {
    cut: (span) => nameCut(score, span),
    place: (position) => namePosition(score, position),
    cutTitle: (cut) => {
      const index = cuts.findIndex((other) => isSameCut(other, cut));
      return index === -1 ? null : `Cut ${index + 1} of № ${number}`;
    },
  };
}
