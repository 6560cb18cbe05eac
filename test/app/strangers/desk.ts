import { hashText } from "@/lib/edition/hash-terms";
import { printedTempo } from "@/lib/edition/tempo-terms";
import type { PracticeRecord } from "@/lib/practice/practice-entry";
import { startSession } from "@/lib/store/auth/session";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { readWorkingEdition } from "@/lib/store/editions/read-working-edition";
import { saveEngraving } from "@/lib/store/engravings/save-engraving";
import { invite, type NewInvitation } from "@/lib/store/invitations/invite";
import { logPerformance } from "@/lib/store/performances/log-performance";
import type { PerformanceRecord } from "@/lib/store/performances/performance-record";
import { setTempoSettings } from "@/lib/store/pieces/set-tempo-settings";
import { logPractice } from "@/lib/store/practice/log-practice";
import { changeProgramme } from "@/lib/store/programmes/change-programme";
import { drawUpProgramme } from "@/lib/store/programmes/draw-up-programme";
import { answerProposal } from "@/lib/store/proposals/answer-proposal";
import type { ProposalRecord, RewriteProposalRecord } from "@/lib/store/proposals/proposal-record";
import { makeReaderLink, type NewReaderLink } from "@/lib/store/readers/make-reader-link";
import { noteRestNeed } from "@/lib/store/rests/note-rest-need";
import type { RestNeedRecord } from "@/lib/store/rests/rest-need-record";
import { keepRewrite } from "@/lib/store/rewrites/keep-rewrite";
import type { RewriteRecord } from "@/lib/store/rewrites/rewrite-record";
import type { Viewer } from "@/lib/store/viewer";
import { bringDuo, type Duo, practiceOf, proposed, restOf, rewriteOf, valued } from "@/test/lib/store/duo";
import { browser } from "./browser";

/** A piece in full use. */
export interface BusyDesk extends Duo {
  /** Waits for the soloist. */
  readonly open: ProposalRecord;
  readonly agreed: ProposalRecord | RewriteProposalRecord;
  /** Of the soloist's. */
  readonly need: RestNeedRecord;
  /** Of the pianist's, for nobody else's eyes. */
  readonly rewrite: RewriteRecord;
  readonly practice: PracticeRecord;
  readonly invitation: NewInvitation;
  /** Opens the first edition. */
  readonly readerLink: NewReaderLink;
  readonly performance: PerformanceRecord;
  /** Of the pianist's, with that performance on it. */
  readonly programmeId: string;
  /** Hash of what could be frozen if nothing were open. */
  readonly workingHash: string;
  /** Of a kept engraving with one system. */
  readonly engravingKey: string;
}

export async function bringBusyDesk(): Promise<BusyDesk> {
  const duo = await bringDuo();
  const { pieceId, pianist, soloist } = duo;
  const cut = await proposed(duo, 9, 12);
  const yes = { proposalId: cut.id, answer: "agree", termsHash: cut.termsHash };
  const agreed = valued(await answerProposal(soloist, pieceId, yes));
  const first = valued(await readWorkingEdition(pianist, pieceId)).hash;
  for (const player of [pianist, soloist]) valued(await approveEdition(player, pieceId, { hash: first }));
  const occasion = { kind: "recital", name: "Recital", on: "2026-03-28", editionNumber: 1 };
  const performance = valued(await logPerformance(soloist, pieceId, occasion));
  const programme = { kind: "recital", name: "Recital", on: "2026-03-28" };
  const { programmeId } = valued(await drawUpProgramme(pianist, programme));
  const items = [{ kind: "performance", performanceId: performance.id, gapSeconds: 0 }];
  valued(await changeProgramme(pianist, { ...programme, programmeId, revision: 0, items }));
  const invitation = valued(await invite(pianist, pieceId, { role: "reader" }));
  const toRead = { editionNumber: 1, forWhom: "the page turner" };
  const readerLink = valued(await makeReaderLink(pianist, pieceId, toRead));
  valued(await setTempoSettings(pianist, pieceId, { settings: { ...printedTempo, fermataFactor: 2 } }));
  const workingHash = valued(await readWorkingEdition(pianist, pieceId)).hash;
  const open = await proposed(duo, 14, 16);
  const need = valued(await noteRestNeed(soloist, pieceId, restOf(duo, 8, 16)));
  const rewrite = valued(await keepRewrite(pianist, pieceId, rewriteOf(duo, 2)));
  const practice = valued(await logPractice(pianist, pieceId, practiceOf(duo)));
  const engravingKey = hashText(`an engraving of ${pieceId}`);
  await saveEngraving(pieceId, engravingKey, { rendererVersion: "test", systems: [oneSystem] });
  return {
    ...duo,
    open,
    agreed,
    need,
    rewrite,
    practice,
    invitation,
    readerLink,
    performance,
    programmeId,
    workingHash,
    engravingKey,
  };
}

const oneSystem = {
  ...{ index: 0, width: 100, height: 100, firstBarIndex: 0, lastBarIndex: 0, bars: [] },
  svg: '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100"/>',
};

/** Makes the browser this person's; null signs it out. */
export async function signInAs(person: Viewer | null): Promise<void> {
  browser.jar.clear();
  if (person) browser.jar.set("next-auth.session-token", (await startSession(person.userId)).token);
}
