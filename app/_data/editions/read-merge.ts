import { type PieceOccasion, readOccasions } from "@/app/_data/read-occasions";
import { checkRestNeeds } from "@/lib/breath/check-rest-needs";
import { sayChangeProblem } from "@/lib/edition/change-problem";
import { type CutTerms, toCutSpan } from "@/lib/edition/cut-terms";
import { type EditionContent, noMarks } from "@/lib/edition/edition-content";
import { type MergeOffer, mergeEditions } from "@/lib/edition/merge-editions";
import { printedTempo } from "@/lib/edition/tempo-terms";
import type { Result } from "@/lib/score/result";
import type { EditionRecord } from "@/lib/store/editions/edition-record";
import { listEditions } from "@/lib/store/editions/list-editions";
import { type CommonStart, readCommonStart } from "@/lib/store/pieces/read-common-start";
import type { Viewer } from "@/lib/store/viewer";
import { type About, inTimeOfContent, isOfThisFile, namesOf } from "./edition-sides";
import { listCandidates } from "./merge-candidates";
import { sayOffer } from "./merge-sentence";
import { findStep, sayWaiting } from "./merge-step";
import type { MergeOfferView, MergeView } from "./merge-view";

/**
 * What another version of the same music has that this one lacks; null when the viewer belongs to no other.
 *
 * @param asked the other piece, as the address has it; anything unknown counts as not asked.
 */
export async function readMerge(viewer: Viewer, about: About, asked: unknown): Promise<MergeView | null> {
  const occasions = await readOccasions(viewer.userId, about.piece.id);
  const others = occasions.filter(({ pieceId }) => pieceId !== about.piece.id);
  const other =
    others.find(({ pieceId }) => pieceId === asked) ??
    others.find(({ lastEdition }) => lastEdition !== null) ??
    others[0];
  if (!other) return null;
  const [editions, start] = await Promise.all([
    listEditions(viewer, other.pieceId),
    readCommonStart(viewer, about.piece.id, other.pieceId),
  ]);
  const view: MergeView = {
    others: others.map(({ pieceId, name }) => ({ pieceId, name })),
    ...{ otherId: other.pieceId, otherName: other.name, otherEdition: other.lastEdition ?? 0 },
    ...{ start: sayStart(start, occasions), sourceHash: about.music.sourceHash, offers: [], problem: null },
  };
  const newest = editions.ok ? editions.value[0] : undefined;
  const problem = sayProblem(about, other, newest);
  if (problem !== null || !newest || !start.ok) return { ...view, problem };
  return { ...view, offers: offersOf(about, start.value, newest, other.name) };
}

function sayStart(start: Result<CommonStart | null, unknown>, occasions: readonly PieceOccasion[]): string {
  if (!start.ok || start.value === null) return "the print";
  const { pieceId, number } = start.value;
  const of = occasions.find((occasion) => occasion.pieceId === pieceId)?.name;
  return of === undefined ? `№ ${number}` : `№ ${number} of ${of}`;
}

function sayProblem(about: About, other: PieceOccasion, newest: EditionRecord | undefined): string | null {
  if (!newest) return `Nothing is frozen in ${other.name} yet, so there is nothing that it has for good.`;
  if (isOfThisFile(about, newest.content)) return null;
  return `№ ${newest.number} of ${other.name} was made from another file. Its bars are not these.`;
}

function offersOf(
  about: About,
  start: CommonStart | null,
  newest: EditionRecord,
  otherName: string,
): MergeOfferView[] {
  const mine = about.working.content;
  const base = start && isOfThisFile(about, start.content) ? start.content : printOf(mine);
  const { offers } = mergeEditions(base, mine, newest.content, needsBroken(about));
  return offers.map((offer) => {
    const { sentence, secondsLonger } = sayOffer(about, base, offer.change);
    const waiting = sayWaiting(about, offer.change);
    const step = offer.conflict || waiting ? null : findStep(about, offer.change);
    return {
      ...{ sentence, secondsLonger, step },
      conflict: waiting ? null : sayConflict(about, offer, otherName),
      candidates: waiting ? [] : listCandidates(about, offer),
      note: waiting ?? (offer.conflict || step ? null : whoseItIs(offer.change)),
    };
  });
}

function whoseItIs({ kind }: MergeOffer["change"]): string {
  return kind === "rewrite"
    ? "The pianist takes it over, if it is wanted."
    : "Its author writes it here, if it is wanted.";
}

/** As printed, in the parts that are used now. */
function printOf(content: EditionContent): EditionContent {
  return { ...content, ...noMarks, cuts: [], tempo: printedTempo };
}

/** Ids of the needed rests that a set of cuts leaves too little of. */
function needsBroken(about: About): (cuts: readonly CutTerms[]) => string[] {
  const { score, map } = inTimeOfContent(about, about.working.content);
  const { needs } = about.desk;
  if (needs.length === 0) return () => [];
  return (cuts) =>
    checkRestNeeds(score, map, cuts.map(toCutSpan), needs)
      .filter(({ verdict }) => verdict === "short")
      .map(({ need }) => need.id);
}

function sayConflict(about: About, { change, conflict }: MergeOffer, otherName: string): string | null {
  if (conflict === null) return null;
  const names = namesOf(about);
  if (conflict.kind === "decided") return sayChangeProblem(conflict.problem, names);
  const mine = conflict.mine.map(
    (cut) => `${names.cutTitle?.(cut) ?? "the cut"} (${names.cut(toCutSpan(cut))})`,
  );
  if (conflict.kind === "rest")
    return mine.length === 0
      ? "It takes too much of a rest that is needed here."
      : `Beside ${mine.join(" and ")} it takes too much of a rest that is needed here.`;
  if (mine.length === 0)
    return `These bars were cut when both began; here the cut was opened, in ${otherName} it was moved.`;
  return change.kind === "cut" && change.after === null
    ? `${otherName} opened the cut that became ${mine.join(" and ")} here.`
    : `It has bars of ${mine.join(" and ")} here.`;
}
