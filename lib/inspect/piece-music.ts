import type { PieceArchive } from "@/lib/archive/piece-archive";
import { checkCut } from "@/lib/cuts/check-cut";
import { sayCutProblem } from "@/lib/cuts/say-cut-problem";
import { toCutSpan } from "@/lib/edition/cut-terms";
import { findTempoFault } from "@/lib/edition/find-tempo-fault";
import { sayReadProblem } from "@/lib/musicxml/read-problem";
import { readScore } from "@/lib/musicxml/read-score";
import type { Score } from "@/lib/score/score";
import { fitEditions } from "./edition-music";

/**
 * What of a piece cannot be played in its music: a source that cannot be read, cuts, tempi and rests outside the bars.
 *
 * @returns a sentence each, with the file it stands in.
 */
export function findMusicFaults(archive: PieceArchive): string[] {
  const { piece, bytes, editions } = archive;
  const sources = [...bytes].map(([hash, file]) => ({ hash, fileName: nameOf(archive, hash), bytes: file }));
  const unread: string[] = [];
  const scores = new Map<string, Score>();
  for (const { hash, fileName, bytes: file } of sources) {
    const read = readScore(file);
    if (read.ok) scores.set(hash, read.value.score);
    else unread.push(`The source ${fileName} cannot be read. ${sayReadProblem(read.problem)}`);
  }
  // Its music is told above.
  if (unread.length > 0) return unread;
  const main = piece.sources.filter(({ kind }) => kind === "solo and reduction").at(-1);
  const score = main && scores.get(main.hash);
  const tempo = score ? findTempoFault(score, piece.tempo) : null;
  return [
    ...(tempo === null ? [] : [`piece.json: the tempi cannot be played. ${tempo}`]),
    ...fitEditions(editions, sources).flatMap(({ faults }) => faults),
    ...findProposalFaults(archive, scores),
    ...findNeedFaults(archive, scores),
  ];
}

function nameOf({ piece }: PieceArchive, hash: string): string {
  return piece.sources.find((source) => source.hash === hash)?.fileName ?? hash;
}

type Scores = ReadonlyMap<string, Score>;

function findProposalFaults({ proposals }: PieceArchive, scores: Scores): string[] {
  return proposals.flatMap(({ key, terms }) => {
    const score = scores.get(terms.sourceHash);
    const checked = score && checkCut(score, toCutSpan(terms));
    return checked && !checked.ok
      ? [`proposals.json: ${key} cannot be made. ${sayCutProblem(checked.problem)}`]
      : [];
  });
}

function findNeedFaults({ needs }: PieceArchive, scores: Scores): string[] {
  return needs.flatMap(({ key, terms, events }) =>
    [terms, ...events.map((event) => event.terms)].some(({ sourceHash, to }) => {
      const score = scores.get(sourceHash);
      return !score || to.barIndex > score.bars.length;
    })
      ? [`rest-needs.json: ${key} lies outside the bars of its music.`]
      : [],
  );
}
