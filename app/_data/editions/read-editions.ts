import type { Desk } from "@/app/_data/desk/desk";
import { readDesk, readPieceOnce } from "@/app/_data/read-desk";
import { nameCut } from "@/lib/cuts/name-cut";
import { chooseSides, type SideName } from "@/lib/edition/choose-sides";
import { toCutSpan } from "@/lib/edition/cut-terms";
import type { EditionDifference } from "@/lib/edition/edition-difference";
import { timeEdition } from "@/lib/edition/time-edition";
import { type Result, success } from "@/lib/score/result";
import type { EditionRecord } from "@/lib/store/editions/edition-record";
import { listEditions } from "@/lib/store/editions/list-editions";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { listPerformances, listRemovedPerformances } from "@/lib/store/performances/list-performances";
import { readPieceScore } from "@/lib/store/pieces/read-piece-score";
import { listRewrites } from "@/lib/store/rewrites/list-rewrites";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import { may } from "@/lib/store/who-may";
import { waitsFor } from "../desk/waits-for";
import { toRows } from "./difference-rows";
import { drawSide } from "./draw-side";
import {
  type About,
  compareContents,
  contentOf,
  inTimeOfContent,
  isOfThisFile,
  lastSide,
} from "./edition-sides";
import type { Comparison, EditionsView, EditionView, OpenRewrite, WorkingView } from "./editions-view";
import { findAgreeing } from "./find-agreeing";
import { findPlace } from "./find-place";
import { layOnScore } from "./lay-on-score";
import { readMerge } from "./read-merge";
import { findRestoration } from "./restoration-of";
import { findWhatStood } from "./what-stood";

/** What the address of the screen asks for; anything unknown in it counts as not asked. */
export interface AskedEditions {
  /** Which two to compare. */
  readonly earlier: unknown;
  readonly later: unknown;
  /** A bar by its printed number. */
  readonly bar: unknown;
  /** A month, a day, or a performance. */
  readonly when: unknown;
  /** The number of an edition that might be brought back. */
  readonly restore: unknown;
  /** Another piece of the same music, whose newest edition this one is laid beside. */
  readonly other: unknown;
}

/**
 * Everything the screen of editions shows one member.
 */
export async function readEditions(
  viewer: Viewer,
  pieceId: string,
  asked: AskedEditions,
): Promise<Result<EditionsView, StoreProblem>> {
  const piece = await readPieceOnce(viewer.userId, pieceId);
  if (!piece.ok) return piece;
  const readsPerformances = may(piece.value.myRole, "read-performances");
  const [desk, music, editions, working, rewrites, performances, removed] = await Promise.all([
    readDesk(viewer, pieceId),
    readPieceScore(viewer, pieceId),
    listEditions(viewer, pieceId),
    readWorkingEdition(viewer, pieceId),
    listRewrites(viewer, pieceId),
    // Readers have no part in what came of performances.
    readsPerformances ? listPerformances(viewer, pieceId) : success([]),
    readsPerformances ? listRemovedPerformances(viewer, pieceId) : success([]),
  ]);
  if (!desk.ok) return desk;
  if (!music.ok) return music;
  if (!editions.ok) return editions;
  if (!working.ok) return working;
  if (!rewrites.ok) return rewrites;
  if (!performances.ok) return performances;
  if (!removed.ok) return removed;
  const about: About = {
    ...{ piece: piece.value, music: music.value, desk: desk.value },
    ...{ editions: editions.value, working: working.value, rewrites: rewrites.value },
  };
  const changes = compareContents(about, contentOf(about, lastSide(about)), working.value.content);
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
    other: nameOther(desk.value),
    occasion: piece.value.occasion,
    may: {
      approve: may(piece.value.myRole, "approve"),
      log: may(piece.value.myRole, "log-performance"),
      propose: may(piece.value.myRole, "propose"),
      branch: may(piece.value.myRole, "branch"),
    },
    editions: editions.value.map((edition) => toEditionView(about, edition)),
    working: toWorkingView(about, changes),
    comparison: compare(about, chosen),
    chosen,
    performances: performances.value,
    removedPerformances: removed.value,
    place: findPlace(about, asked.bar),
    stood: findWhatStood({ editions: editions.value, performances: performances.value }, asked.when),
    merge: await readMerge(viewer, about, asked.other),
    restoring: may(piece.value.myRole, "propose")
      ? findRestoration(about, asked.restore, nameOther(desk.value))
      : null,
  });
}

function compare(about: About, { earlier, later }: EditionsView["chosen"]): Comparison | null {
  const [a, b] = [contentOf(about, earlier), contentOf(about, later)];
  if (!isOfThisFile(about, a) || !isOfThisFile(about, b)) return null;
  const [earlierTime, laterTime] = [inTimeOfContent(about, a), inTimeOfContent(about, b)];
  const rowsOf = {
    ...{ earlier: earlierTime, later: laterTime, cuts: about.desk.cuts },
    nameCut: (span: Parameters<typeof nameCut>[1]) => nameCut(about.music.score, span),
  };
  const rows = toRows(rowsOf, compareContents(about, a, b));
  return {
    earlier: drawSide(earlier, earlierTime, a.cuts.map(toCutSpan)),
    later: drawSide(later, laterTime, b.cuts.map(toCutSpan)),
    rows,
    onScore: layOnScore(about, a, b, rows),
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

function toWorkingView(about: About, changes: readonly EditionDifference[]): WorkingView {
  const { desk, working } = about;
  const open = desk.cuts.filter(({ state }) => state === "open");
  const openRewrites = listOpenRewrites(about);
  const { number, content, hash, canFreeze, whyNot, approvals } = working;
  return {
    ...{ name: "working", number, hash, canFreeze, whyNot },
    seconds: desk.agreed.seconds,
    cutCount: content.cuts.length,
    ...{ open, openRewrites, openCount: open.length + openRewrites.length },
    approvals: approvals.map(({ userId, at }) => ({ userId, at: at.toISOString() })),
    changes: changes.map(({ sentence, secondsLonger }) => ({ sentence, secondsLonger })),
    agreeing: findAgreeing({
      ...{ working, editions: about.editions, myId: desk.me.userId },
      compare: (earlier, later) => compareContents(about, earlier, later),
      secondsOf: (content) =>
        isOfThisFile(about, content) ? timeEdition(about.music.score, content).seconds : null,
    }),
  };
}

function listOpenRewrites({ rewrites, music, desk }: About): OpenRewrite[] {
  return rewrites.flatMap(({ id, number, terms, proposal }) => {
    if (proposal?.state !== "open") return [];
    const { proposedBy, createdAt } = proposal;
    const waitsForMe = waitsFor(desk.me, desk.people, proposal);
    const name = nameCut(music.score, toCutSpan(terms));
    return [{ id, number, name, waitsForMe, proposedBy, createdAt: createdAt.toISOString() }];
  });
}

/** First name of the other player; what the player is called while there is none. */
function nameOther({ people, me }: Desk): string {
  const other = people.find(
    ({ userId, role, hasLeft }) =>
      !hasLeft && userId !== me.userId && (role === "pianist" || role === "soloist"),
  );
  return other?.name.split(" ")[0] ?? "the other player";
}
