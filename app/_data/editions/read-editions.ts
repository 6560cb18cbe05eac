import type { Desk } from "@/app/_data/desk/desk";
import type { ScoreInTime } from "@/app/_data/desk/in-time";
import { inTimeOf, readDesk, readPieceOnce } from "@/app/_data/read-desk";
import { nameCut } from "@/lib/cuts/name-cut";
import { namePosition } from "@/lib/cuts/name-position";
import type { SideName } from "@/lib/edition/choose-sides";
import { chooseSides } from "@/lib/edition/choose-sides";
import { compareEditions } from "@/lib/edition/compare-editions";
import { toCutSpan } from "@/lib/edition/cut-terms";
import type { EditionContent } from "@/lib/edition/edition-content";
import type { EditionDifference } from "@/lib/edition/edition-difference";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { assignRoles } from "@/lib/score/assign-roles";
import { type Result, success } from "@/lib/score/result";
import type { EditionRecord } from "@/lib/store/editions/edition-record";
import { listEditions } from "@/lib/store/editions/list-editions";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import type { WorkingEdition } from "@/lib/store/editions/working-edition";
import { listPerformances } from "@/lib/store/performances/list-performances";
import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import { type PieceScore, readPieceScore } from "@/lib/store/pieces/read-piece-score";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import { may } from "@/lib/store/who-may";
import { toRows } from "./difference-rows";
import { drawSide } from "./draw-side";
import type { Comparison, EditionsView, EditionView, WorkingView } from "./editions-view";

/**
 * Everything the screen of editions shows one member.
 *
 * @param asked which two to compare, as the address has it; anything unknown in it counts as not asked.
 */
export async function readEditions(
  viewer: Viewer,
  pieceId: string,
  asked: { earlier: unknown; later: unknown },
): Promise<Result<EditionsView, StoreProblem>> {
  const piece = await readPieceOnce(viewer.userId, pieceId);
  if (!piece.ok) return piece;
  const [desk, music, editions, working, performances] = await Promise.all([
    readDesk(viewer, pieceId),
    readPieceScore(viewer, pieceId),
    listEditions(viewer, pieceId),
    readWorkingEdition(viewer, pieceId),
    listPerformances(viewer, pieceId),
  ]);
  if (!desk.ok) return desk;
  if (!music.ok) return music;
  if (!editions.ok) return editions;
  if (!working.ok) return working;
  if (!performances.ok) return performances;
  const about: About = {
    ...{ piece: piece.value, music: music.value, desk: desk.value },
    ...{ editions: editions.value, working: working.value },
  };
  const changes = compareSides(about, lastSide(about), "working");
  const chosen = chooseSides(asked, {
    editionCount: editions.value.length,
    hasChanged: editions.value.length === 0 || changes.length > 0,
  });
  return success({
    pieceId,
    title: piece.value.title,
    limitSeconds: piece.value.limitSeconds,
    me: desk.value.me,
    people: desk.value.people,
    may: { approve: may(piece.value.myRole, "approve"), log: may(piece.value.myRole, "log-performance") },
    editions: editions.value.map((edition) => toEditionView(about, edition)),
    working: toWorkingView(about, changes),
    comparison: compare(about, chosen),
    chosen,
    performances: performances.value,
  });
}

interface About {
  readonly piece: PieceRecord;
  readonly music: PieceScore;
  readonly desk: Desk;
  readonly editions: readonly EditionRecord[];
  readonly working: WorkingEdition;
}

function lastSide({ editions }: About): SideName {
  return editions[0]?.number ?? "printed";
}

/** What a side consists of. The print has the parts as they are used now, no cuts and no tempi of the duo's own. */
function contentOf({ editions, working }: About, side: SideName): EditionContent {
  if (side === "working") return working.content;
  if (side === "printed") return { ...working.content, cuts: [], tempo: printedTempo };
  const edition = editions.find(({ number }) => number === side);
  if (!edition) throw new RangeError(`No edition № ${side}`);
  return edition.content;
}

/** The piece along the clock of one of its versions. */
function inTimeOfContent({ piece, music }: About, content: EditionContent): ScoreInTime {
  const { partRoles, tempo } = content;
  return inTimeOf(
    { ...piece, settings: tempo, source: { ...piece.source, partRoles } },
    { ...music, score: assignRoles(music.score, partRoles) },
  );
}

function compareSides(about: About, earlier: SideName, later: SideName): EditionDifference[] {
  const { score } = about.music;
  const [a, b] = [contentOf(about, earlier), contentOf(about, later)];
  return compareEditions(score, inTimeOfContent(about, b).map, a, b, {
    cut: (span) => nameCut(score, span),
    place: (position) => namePosition(score, position),
  });
}

/** An edition of another file has other bars: nothing of it can be measured here. */
function isOfThisFile({ music }: About, content: EditionContent): boolean {
  return content.sourceHash === music.sourceHash;
}

function compare(about: About, { earlier, later }: EditionsView["chosen"]): Comparison | null {
  const [a, b] = [contentOf(about, earlier), contentOf(about, later)];
  if (!isOfThisFile(about, a) || !isOfThisFile(about, b)) return null;
  const [earlierTime, laterTime] = [inTimeOfContent(about, a), inTimeOfContent(about, b)];
  const rowsOf = {
    ...{ earlier: earlierTime, later: laterTime, cuts: about.desk.cuts },
    nameCut: (span: Parameters<typeof nameCut>[1]) => nameCut(about.music.score, span),
  };
  return {
    earlier: drawSide(earlier, earlierTime, a.cuts.map(toCutSpan)),
    later: drawSide(later, laterTime, b.cuts.map(toCutSpan)),
    rows: toRows(rowsOf, compareSides(about, earlier, later)),
    declined: declinedBetween(about, momentOf(about, earlier), momentOf(about, later)),
  };
}

function momentOf({ editions }: About, side: SideName): string {
  if (side === "printed") return "";
  return editions.find(({ number }) => number === side)?.frozenAt.toISOString() ?? "9999";
}

function declinedBetween({ desk }: About, from: string, to: string): Comparison["declined"] {
  return desk.cuts.filter(({ state, answers }) => {
    const no = answers.findLast(({ answer }) => answer === "decline");
    return state === "declined" && no !== undefined && from < no.at && no.at < to;
  });
}

function toEditionView(about: About, edition: EditionRecord): EditionView {
  const { content, number, hash, previousHash, frozenAt, approvals } = edition;
  const isMeasured = isOfThisFile(about, content);
  const spans = content.cuts.map(toCutSpan);
  return {
    ...{ name: number, hash, previousHash, frozenAt: frozenAt.toISOString() },
    seconds: isMeasured ? drawSide(number, inTimeOfContent(about, content), spans).seconds : null,
    cutCount: spans.length,
    cuts: isMeasured ? spans.map((span) => nameCut(about.music.score, span)) : [],
    ownTempi: content.tempo.tempi.length + content.tempo.timings.length,
    approvals: approvals.map(({ userId, name, role, at }) => ({ userId, name, role, at: at.toISOString() })),
  };
}

function toWorkingView({ desk, working }: About, changes: readonly EditionDifference[]): WorkingView {
  const { number, content, hash, canFreeze, whyNot, approvals } = working;
  return {
    ...{ name: "working", number, hash, canFreeze, whyNot },
    seconds: desk.agreed.seconds,
    cutCount: content.cuts.length,
    open: desk.cuts.filter(({ state }) => state === "open"),
    approvals: approvals.map(({ userId, at }) => ({ userId, at: at.toISOString() })),
    changes: changes.map(({ sentence, secondsLonger }) => ({ sentence, secondsLonger })),
  };
}
