import { nameBars } from "@/app/_ui/name-span";
import { isoDateOf } from "@/lib/calendar/iso-date";
import { writeEvents } from "@/lib/rewrites/bar-event";
import { barSpanOf, barsOfTerms } from "@/lib/rewrites/bars-of-terms";
import { readBarEvents } from "@/lib/rewrites/read-bar-events";
import { type Result, success } from "@/lib/score/result";
import type { Score } from "@/lib/score/score";
import { now } from "@/lib/store/clock";
import { readHands as readOwnHands } from "@/lib/store/hands/read-hands";
import { listCueHints } from "@/lib/store/hints/list-cue-hints";
import { listPerformances } from "@/lib/store/performances/list-performances";
import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import { readPieceScore } from "@/lib/store/pieces/read-piece-score";
import { listPractice } from "@/lib/store/practice/list-practice";
import { listRewrites } from "@/lib/store/rewrites/list-rewrites";
import type { RewriteRecord } from "@/lib/store/rewrites/rewrite-record";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import { readPieceOnce } from "../read-desk";
import type { DeskRewrite, HandsDesk, HandsPerformance } from "./hands-desk";
import { waitsFor } from "./waits-for";

/**
 * What is under the hands in a piece, as one member sees it: the pianist's own hands and practice go to that pianist alone,
 * rewrites as far as they are told or asked.
 */
export async function readHandsDesk(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<HandsDesk, StoreProblem>> {
  const piece = await readPieceOnce(viewer.userId, pieceId);
  if (!piece.ok) return piece;
  const [music, rewrites, hints, performance] = await Promise.all([
    readPieceScore(viewer, pieceId),
    listRewrites(viewer, pieceId),
    listCueHints(viewer, pieceId),
    findNext(viewer, pieceId),
  ]);
  if (!music.ok) return music;
  if (!rewrites.ok) return rewrites;
  const seen: Seen = { ...music.value, piece: piece.value, viewer };
  return success({
    mine: piece.value.myRole === "pianist" ? await readMine(viewer, pieceId) : null,
    rewrites: rewrites.value.map((rewrite) => toDeskRewrite(seen, rewrite)),
    performance,
    hints: hints.ok ? hints.value : [],
  });
}

async function readMine(viewer: Viewer, pieceId: string): Promise<NonNullable<HandsDesk["mine"]>> {
  const [{ profile, givenAt }, practice] = await Promise.all([
    readOwnHands(viewer),
    listPractice(viewer, pieceId),
  ]);
  return {
    profile,
    givenAt: givenAt?.toISOString() ?? null,
    practice: practice.ok ? practice.value : [],
  };
}

async function findNext(viewer: Viewer, pieceId: string): Promise<HandsPerformance | null> {
  const all = await listPerformances(viewer, pieceId);
  if (!all.ok) return null;
  const today = isoDateOf(now());
  const next = all.value.filter(({ on }) => on >= today).at(-1);
  return next ? { name: next.name, on: next.on } : null;
}

interface Seen {
  readonly score: Score;
  readonly sourceHash: string;
  readonly piece: PieceRecord;
  readonly viewer: Viewer;
}

function toDeskRewrite({ score, sourceHash, piece, viewer }: Seen, record: RewriteRecord): DeskRewrite {
  const { id, number, authorId, terms, termsHash, sharing, proposal, stands, frozenInEditions } = record;
  const { fromBar, toBar } = barSpanOf(terms);
  const isStale = terms.sourceHash !== sourceHash;
  const people = [...piece.members, ...piece.formerMembers];
  return {
    ...{ id, number, authorId, terms, termsHash, sharing, stands, fromBar, toBar, isStale },
    createdAt: record.createdAt.toISOString(),
    takenOffAt: record.takenOffAt?.toISOString() ?? null,
    proposal: proposal && {
      ...{ id: proposal.id, state: proposal.state, reason: proposal.reason },
      answers: proposal.answers.map(({ userId, answer, reason, at }) => ({
        ...{ userId, answer, reason },
        at: at.toISOString(),
      })),
    },
    reason: record.reason,
    frozenIn: [...frozenInEditions],
    name: isStale
      ? `bars ${fromBar + 1}–${toBar + 1} of another file`
      : nameBars(score.bars, { firstBar: fromBar, lastBar: toBar }),
    isAsPrinted: !isStale && hasNotesOfPrint(score, record),
    waitsForMe: proposal !== null && waitsFor({ ...viewer, role: piece.myRole }, people, proposal),
  };
}

/** Whether a rewrite says what the print says: then it was kept to say that nothing is to change. */
function hasNotesOfPrint(score: Score, { terms }: RewriteRecord): boolean {
  const part = score.parts.find(({ id }) => id === terms.partId);
  if (!part) return false;
  const { fromBar } = barSpanOf(terms);
  return barsOfTerms(terms).every((events, index) => {
    const barIndex = fromBar + index;
    return (
      barIndex < score.bars.length &&
      writeEvents(events) === writeEvents(readBarEvents(score, part, barIndex))
    );
  });
}
