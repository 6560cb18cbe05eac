import type { Desk } from "@/app/_data/desk/desk";
import type { ScoreInTime } from "@/app/_data/desk/in-time";
import { inTimeOf } from "@/app/_data/read-desk";
import { nameCut } from "@/lib/cuts/name-cut";
import { namePosition } from "@/lib/cuts/name-position";
import { type BarMap, readBarMap } from "@/lib/edition/bar-maps";
import type { SideName } from "@/lib/edition/choose-sides";
import { compareEditions } from "@/lib/edition/compare-editions";
import { toCutSpan } from "@/lib/edition/cut-terms";
import { type EditionContent, noMarks } from "@/lib/edition/edition-content";
import type { EditionDifference, PlaceNames } from "@/lib/edition/edition-difference";
import { hashTerms } from "@/lib/edition/hash-terms";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { assignRoles } from "@/lib/score/assign-roles";
import type { EditionRecord } from "@/lib/store/editions/edition-record";
import type { WorkingEdition } from "@/lib/store/editions/working-edition";
import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import type { PieceScore } from "@/lib/store/pieces/read-piece-score";
import type { RewriteRecord } from "@/lib/store/rewrites/rewrite-record";

/** All that the versions of a piece are told from. */
export interface About {
  readonly piece: PieceRecord;
  readonly music: PieceScore;
  readonly desk: Desk;
  readonly editions: readonly EditionRecord[];
  readonly working: WorkingEdition;
  /** As the viewer sees them. */
  readonly rewrites: readonly RewriteRecord[];
}

export function lastSide({ editions }: About): SideName {
  return editions[0]?.number ?? "printed";
}

/** What a side consists of. The print has the parts as they are used now, no cuts, no tempi and no marks of the duo's. */
export function contentOf({ editions, working }: About, side: SideName): EditionContent {
  if (side === "working") return working.content;
  if (side === "printed") return { ...working.content, ...noMarks, cuts: [], tempo: printedTempo };
  const edition = editions.find(({ number }) => number === side);
  if (!edition) throw new RangeError(`No edition № ${side}`);
  return edition.content;
}

/** The piece along the clock of one of its versions. */
export function inTimeOfContent({ piece, music }: About, content: EditionContent): ScoreInTime {
  const { partRoles, tempo } = content;
  return inTimeOf(
    { ...piece, settings: tempo, source: { ...piece.source, partRoles } },
    { ...music, score: assignRoles(music.score, partRoles) },
  );
}

/** From the printed bars to those of a version and back. */
export function mapOfContent(about: About, content: EditionContent): BarMap {
  const { score, order } = inTimeOfContent(about, content);
  return readBarMap(score, order, content.cuts.map(toCutSpan));
}

/** An edition of another file has other bars: nothing of it can be measured here. */
export function isOfThisFile({ music }: Pick<About, "music">, content: EditionContent): boolean {
  return content.sourceHash === music.sourceHash;
}

/** How places of the piece are called in its sentences. */
export function namesOf({ music: { score }, desk }: Pick<About, "music" | "desk">): PlaceNames {
  return {
    cut: (span) => nameCut(score, span),
    place: (position) => namePosition(score, position),
    cutTitle: (terms) => {
      const hash = hashTerms(terms);
      const proposal = desk.cuts.findLast((cut) => cut.termsHash === hash);
      return proposal ? `Cut ${proposal.number}` : null;
    },
  };
}

export function compareContents(about: About, a: EditionContent, b: EditionContent): EditionDifference[] {
  const { map } = inTimeOfContent(about, b);
  return compareEditions(about.music.score, map, a, b, namesOf(about));
}
