import { cache } from "react";
import { inkOf } from "@/app/_ui/party";
import type { StripCut, StripPiece } from "@/app/_ui/strip/strip-piece";
import { canonicalJson } from "@/lib/edition/canonical-json";
import { toPositionTerms } from "@/lib/edition/position-terms";
import { toRestNeed } from "@/lib/edition/rest-need-terms";
import { findSoloPart } from "@/lib/score/find-part";
import type { Part } from "@/lib/score/part";
import { writeQuarters } from "@/lib/score/quarters";
import { type Result, success } from "@/lib/score/result";
import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { type PieceScore, readPieceScore } from "@/lib/store/pieces/read-piece-score";
import { listProposals } from "@/lib/store/proposals/list-proposals";
import { listRestNeeds } from "@/lib/store/rests/list-rest-needs";
import { readStandingRewrites } from "@/lib/store/rewrites/read-standing";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";
import { may } from "@/lib/store/who-may";
import type { Desk, DeskCut, DeskPerson, DeskTutti } from "./desk/desk";
import { agreedSpans, type CutsOf, deskCuts } from "./desk/desk-cuts";
import { evidenceOf, runningTimeWith } from "./desk/desk-time";
import { layInTime, type ScoreInTime } from "./desk/in-time";
import { keepLately } from "./desk/keep-lately";
import { beatOffsets, soloTexts } from "./desk/solo-text";
import { knowsSolo, listLetters, listTempi, stripOf } from "./desk/strip-of";

const lately = keepLately<ScoreInTime>(12);

/** The piece's music along the clock. It depends on the file, the roles of its parts and the duo's tempi, and is kept by these. */
export function inTimeOf(piece: PieceRecord, { score, sourceHash }: PieceScore): ScoreInTime {
  const { settings, longTuttiBars } = piece;
  const key = canonicalJson({ sourceHash, partRoles: piece.source.partRoles, settings, longTuttiBars });
  return lately(key, () => layInTime(score, settings, longTuttiBars));
}

/** A piece's record, read once a request. */
export const readPieceOnce = cache((userId: string, pieceId: string) => readPiece({ userId }, pieceId));

/** Everything the piece screen needs, as plain JSON, seen by one member. */
export async function readDesk(viewer: Viewer, pieceId: string): Promise<Result<Desk, StoreProblem>> {
  const piece = await readPieceOnce(viewer.userId, pieceId);
  if (!piece.ok) return piece;
  const [music, proposals, rewrites, rests] = await Promise.all([
    readPieceScore(viewer, pieceId),
    listProposals(viewer, pieceId),
    readStandingRewrites(viewer, pieceId),
    may(piece.value.myRole, "read-discussion") ? listRestNeeds(viewer, pieceId) : success([]),
  ]);
  if (!music.ok) return music;
  if (!proposals.ok) return proposals;
  if (!rewrites.ok) return rewrites;
  if (!rests.ok) return rests;
  const inTime = inTimeOf(piece.value, music.value);
  const people = listPeople(piece.value, [
    ...new Set(
      proposals.value.flatMap((one) => [one.proposedBy, ...one.answers.map(({ userId }) => userId)]),
    ),
  ]);
  const me = people.find(({ userId }) => userId === viewer.userId) ?? unknownPerson(viewer.userId);
  const { sourceHash } = music.value;
  const about: CutsOf = { inTime, sourceHash, proposals: proposals.value, people, me };
  const needs = rests.value
    .filter(({ removedAt, terms }) => removedAt === null && terms.sourceHash === sourceHash)
    .map(toRestNeed);
  const rewritesStamp = rewrites.value.map(({ termsHash }) => termsHash).join(" ");
  return success({ ...layOutDesk(piece.value, music.value, about), needs, rewritesStamp });
}

function layOutDesk(
  piece: PieceRecord,
  music: PieceScore,
  about: CutsOf,
): Omit<Desk, "needs" | "rewritesStamp"> {
  const { inTime, people, me } = about;
  const { score } = inTime;
  const soloName = piece.soloInstrument || findSoloPart(score)?.name || "Solo";
  const tempi = listTempi(inTime, piece.settings.tempi);
  const cuts = deskCuts(about);
  const solo = soloTexts(score);
  const strip = stripOf(inTime, soloName, tempi);
  const isPlayer = may(piece.myRole, "propose");
  return {
    pieceId: piece.id,
    title: piece.title,
    soloName,
    knowsSolo: knowsSolo(inTime),
    limitSeconds: piece.limitSeconds,
    sourceHash: music.sourceHash,
    musicStamp: canonicalJson({ sourceHash: music.sourceHash, partRoles: piece.source.partRoles }),
    me: people.find(({ userId }) => userId === me.userId) ?? unknownPerson(me.userId),
    people,
    may: {
      propose: isPlayer,
      comment: may(piece.myRole, "comment"),
      readDiscussion: may(piece.myRole, "read-discussion"),
    },
    bars: score.bars.map((bar, index) => ({
      label: bar.label,
      length: writeQuarters(bar.length),
      beats: beatOffsets(bar),
      solo: solo[index] ?? "",
    })),
    cueStaff: staffOfCues(score.parts),
    strip: { ...strip, cuts: cuts.flatMap((cut) => toStripCut(cut, people)) },
    tuttis: deskTuttis(inTime, strip),
    cuts,
    breath: piece.breath,
    asWritten: runningTimeWith(inTime, []),
    agreed: runningTimeWith(inTime, agreedSpans(about)),
    evidence: evidenceOf(inTime, piece.settings, tempi),
    settings: piece.settings,
    notices: music.notices.map(({ sentence }) => sentence),
  };
}

/** The solo's staves stand over it, as far as they come before it in the score. */
function staffOfCues(parts: readonly Pick<Part, "role" | "staffCount">[]): number {
  const first = parts.findIndex(({ role }) => role === "reduction");
  const over = parts.slice(0, Math.max(0, first)).filter(({ role }) => role === "solo");
  return over.reduce((sum, { staffCount }) => sum + staffCount, 0);
}

function toStripCut(cut: DeskCut, people: readonly DeskPerson[]): StripCut[] {
  if ((cut.state !== "open" && cut.state !== "agreed") || cut.weight === null) return [];
  const { id, number, state, name, gaps, proposedBy } = cut;
  const proposer = people.find(({ userId }) => userId === proposedBy);
  const { barCount, savedSeconds } = cut.weight;
  return [{ ...{ id, number, state, name, gaps, barCount, savedSeconds }, ink: inkOf(proposer?.role ?? "") }];
}

function deskTuttis(inTime: ScoreInTime, strip: StripPiece): DeskTutti[] {
  const letters = listLetters(inTime);
  return inTime.tuttis.map((tutti, index) => ({
    from: strip.tuttis[index]?.from ?? 0,
    to: strip.tuttis[index]?.to ?? 0,
    place: tutti.place,
    start: toPositionTerms(tutti.from),
    end: toPositionTerms(tutti.to),
    barCount: tutti.barCount,
    firstLabel: tutti.firstBarLabel,
    lastLabel: tutti.lastBarLabel,
    isLong: tutti.isLong,
    letter: letterAt(inTime, letters, tutti.firstBarLabel, tutti.from.barIndex),
  }));
}

/** The letter where a tutti begins: in the bar in which the solo ends, or at the first whole bar of rest after it. */
function letterAt(
  { score }: ScoreInTime,
  letters: readonly { text: string; barIndex: number }[],
  firstLabel: string,
  fromBar: number,
): string | null {
  const isThere = (barIndex: number) =>
    barIndex === fromBar || (barIndex === fromBar + 1 && score.bars[barIndex]?.label === firstLabel);
  return letters.find(({ barIndex }) => isThere(barIndex))?.text ?? null;
}

/** Members, and those who left and whose words stay. */
function listPeople(piece: PieceRecord, spoke: readonly string[]): DeskPerson[] {
  const members = piece.members.map((member) => ({ ...member, hasLeft: false }));
  const former = piece.formerMembers.map((member) => ({ ...member, hasLeft: true }));
  const known = [...members, ...former];
  const gone = spoke.filter((userId) => !known.some((member) => member.userId === userId));
  return [...known, ...gone.map(unknownPerson)];
}

function unknownPerson(userId: string): DeskPerson {
  return { userId, name: "Someone who left", initial: "–", role: "reader", hasLeft: true };
}
