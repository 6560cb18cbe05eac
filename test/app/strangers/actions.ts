import { printedTempo } from "@/lib/edition/tempo-terms";
import { deletePiece } from "@/lib/store/deletion/delete-piece";
import { approveEdition } from "@/lib/store/editions/approve-edition";
import { pinPage } from "@/lib/store/page-breaks/pin-page";
import { recordRun } from "@/lib/store/performances/record-run";
import { removePerformance } from "@/lib/store/performances/remove-performance";
import { removePractice } from "@/lib/store/practice/remove-practice";
import { removeProgramme } from "@/lib/store/programmes/remove-programme";
import { withdrawProposal } from "@/lib/store/proposals/withdraw-proposal";
import { releaseRestNeed } from "@/lib/store/rests/release-rest-need";
import { removeRestNeed } from "@/lib/store/rests/remove-rest-need";
import { takeOffRewrite } from "@/lib/store/rewrites/take-off-rewrite";
import { cutOf, practiceOf, restOf, rewriteOf, valued } from "@/test/lib/store/duo";
import type { BusyDesk } from "./desk";

type Role = "pianist" | "soloist" | "coach" | "reader";

/** An action on a piece: who does it in earnest, with what, and how the other members are refused. */
export interface ActionCase {
  readonly by: Role;
  readonly input: (desk: BusyDesk) => Record<string, unknown>;
  /** The roles that may not; by default coach and reader, whose role does not do this. */
  readonly refused?: Partial<Record<Role, string>>;
  /** What has to happen first for the one who may. */
  readonly before?: (desk: BusyDesk) => Promise<unknown>;
  /** Changes nothing, so whoever may read the piece may ask. */
  readonly readsOnly?: true;
}

const programmes = "app/(desk)/performances/actions";
const onlyItsOwner = { soloist: "not-allowed", coach: "not-allowed", reader: "not-found" };
const folder = "app/(desk)/pieces/[pieceId]/actions";
const withdrawOpen = async ({ open, pianist, pieceId }: BusyDesk) =>
  valued(await withdrawProposal(pianist, pieceId, { proposalId: open.id }));
const namesNeed = ({ need }: BusyDesk) => ({ needId: need.id });
const namesPerformance = ({ performance }: BusyDesk) => ({ performanceId: performance.id });
const runOf = ({ performance }: BusyDesk) => ({
  ...{ runId: "0199c0de-0000-7000-8000-000000000001", editionNumber: 1, performanceId: performance.id },
  ...{ startedAt: "2026-03-28T18:30:00.000Z", byDeviceClock: false, firstSection: 0 },
  ...{ lapsMilliseconds: [15_000, 16_000], on: "2026-03-28", startsAt: "19:30", name: "Run-through" },
});
const onlyPianist = { soloist: "not-allowed", coach: "not-allowed", reader: "not-allowed" };
const onlySoloist = { pianist: "not-allowed", coach: "not-allowed", reader: "not-allowed" };
const onlyTheOther = { pianist: "not-allowed", coach: "not-allowed", reader: "not-allowed" };

const pageBreak = { editionNumber: 1, reader: "pianist", paper: "A4", barIndex: 16 };

export const pieceActions: Readonly<Record<string, ActionCase>> = {
  [`${folder}/answer-proposal.ts`]: {
    by: "soloist",
    input: ({ open }) => ({ proposalId: open.id, answer: "agree", termsHash: open.termsHash }),
    refused: onlyTheOther,
  },
  [`${folder}/approve-edition.ts`]: {
    by: "soloist",
    input: ({ workingHash }) => ({ hash: workingHash }),
    before: withdrawOpen,
  },
  [`${folder}/branch-piece.ts`]: {
    by: "soloist",
    input: () => ({ name: "Recital", thisName: "Jury", editionNumber: 1, limitSeconds: null }),
  },
  [`${folder}/name-occasion.ts`]: {
    by: "soloist",
    input: () => ({ name: "Jury", stood: null }),
  },
  [`${programmes}/change-programme.ts`]: {
    by: "pianist",
    input: ({ programmeId }) => ({
      ...{ programmeId, revision: 1, kind: "recital", name: "Evening", on: "2026-03-29", place: "Hall" },
      items: [{ kind: "words", title: "A song", plannedSeconds: 60, realSeconds: null, gapSeconds: 0 }],
    }),
    refused: onlyItsOwner,
  },
  [`${programmes}/remove-programme.ts`]: {
    by: "pianist",
    input: ({ programmeId }) => ({ programmeId }),
    refused: onlyItsOwner,
  },
  [`${programmes}/restore-programme.ts`]: {
    by: "pianist",
    input: ({ programmeId }) => ({ programmeId }),
    refused: onlyItsOwner,
    before: async ({ pianist, programmeId }) => valued(await removeProgramme(pianist, { programmeId })),
  },
  [`${folder}/change-performance.ts`]: {
    by: "soloist",
    input: ({ performance }) => ({
      ...{ performanceId: performance.id, revision: 0, kind: "recital", name: "Recital" },
      ...{ on: "2026-03-28", editionNumber: 1, result: "passed" },
    }),
  },
  [`${folder}/list-performance-changes.ts`]: {
    by: "coach",
    input: namesPerformance,
    refused: { reader: "not-allowed" },
    readsOnly: true,
  },
  [`${folder}/record-run.ts`]: { by: "soloist", input: runOf },
  [`${folder}/remove-performance.ts`]: { by: "pianist", input: namesPerformance },
  [`${folder}/restore-performance.ts`]: {
    by: "soloist",
    input: namesPerformance,
    before: async (desk) =>
      valued(await removePerformance(desk.soloist, desk.pieceId, namesPerformance(desk))),
  },
  [`${folder}/take-run-timings.ts`]: {
    by: "pianist",
    input: (desk) => ({ ...namesPerformance(desk), sections: [0] }),
    before: async (desk) => valued(await recordRun(desk.soloist, desk.pieceId, runOf(desk))),
  },
  [`${folder}/change-rest-need.ts`]: {
    by: "soloist",
    input: (desk) => ({ ...restOf(desk, 9, 15, 6, "pitch"), needId: desk.need.id }),
    refused: onlySoloist,
  },
  [`${folder}/counter-propose.ts`]: {
    by: "soloist",
    input: (desk) => ({ ...cutOf(desk, 14, 15), proposalId: desk.open.id }),
  },
  [`${folder}/keep-rewrite.ts`]: {
    by: "pianist",
    input: (desk) => ({ ...rewriteOf(desk, 4), sharing: "told" }),
    refused: onlyPianist,
  },
  [`${folder}/share-rewrite.ts`]: {
    by: "pianist",
    input: ({ rewrite }) => ({ rewriteId: rewrite.id, sharing: "told" }),
    refused: onlyPianist,
  },
  [`${folder}/take-off-rewrite.ts`]: {
    by: "pianist",
    input: ({ rewrite }) => ({ rewriteId: rewrite.id }),
    refused: onlyPianist,
  },
  [`${folder}/bring-back-rewrite.ts`]: {
    by: "pianist",
    input: ({ rewrite }) => ({ rewriteId: rewrite.id }),
    refused: onlyPianist,
    before: async ({ pianist, pieceId, rewrite }) =>
      valued(await takeOffRewrite(pianist, pieceId, { rewriteId: rewrite.id })),
  },
  [`${folder}/log-practice.ts`]: { by: "pianist", input: practiceOf, refused: onlyPianist },
  [`${folder}/remove-practice.ts`]: {
    by: "pianist",
    input: ({ practice }) => ({ entryId: practice.id }),
    refused: onlyPianist,
  },
  [`${folder}/restore-practice.ts`]: {
    by: "pianist",
    input: ({ practice }) => ({ entryId: practice.id }),
    refused: onlyPianist,
    before: async ({ pianist, pieceId, practice }) =>
      valued(await removePractice(pianist, pieceId, { entryId: practice.id })),
  },
  [`${folder}/set-cue-hint.ts`]: {
    by: "soloist",
    input: () => ({ instrument: "Cor.", text: "Round, from the arm." }),
  },
  [`${folder}/delete-piece.ts`]: { by: "soloist", input: () => ({ title: "Concertino" }) },
  [`${folder}/hold-rest-need.ts`]: {
    by: "soloist",
    input: namesNeed,
    refused: onlySoloist,
    before: async ({ soloist, pieceId, need }) =>
      valued(await releaseRestNeed(soloist, pieceId, { needId: need.id })),
  },
  [`${folder}/invite-to-piece.ts`]: { by: "pianist", input: () => ({ role: "coach" }) },
  [`${folder}/log-performance.ts`]: {
    by: "pianist",
    input: () => ({ kind: "jury", name: "Jury", on: "2026-04-11", editionNumber: 1 }),
  },
  [`${folder}/make-reader-link.ts`]: {
    by: "pianist",
    input: () => ({ editionNumber: 1, forWhom: "the page turner", lasting: "1 week" }),
  },
  [`${folder}/mark-comments-seen.ts`]: {
    by: "coach",
    input: () => ({ commentIds: ["a-comment"] }),
    refused: { reader: "not-allowed" },
  },
  [`${folder}/pin-page.ts`]: { by: "soloist", input: () => pageBreak },
  [`${folder}/unpin-page.ts`]: {
    by: "pianist",
    input: () => pageBreak,
    before: async ({ soloist, pieceId }) => valued(await pinPage(soloist, pieceId, pageBreak)),
  },
  [`${folder}/note-rest-need.ts`]: {
    by: "soloist",
    input: (desk) => restOf(desk, 8, 16),
    refused: onlySoloist,
  },
  [`${folder}/propose-cut.ts`]: { by: "soloist", input: (desk) => cutOf(desk, 18, 20) },
  [`${folder}/propose-cuts.ts`]: {
    by: "soloist",
    input: (desk) => {
      const { sourceHash, ...cut } = cutOf(desk, 18, 20);
      return { sourceHash, cuts: [{ from: cut.from, to: cut.to }], reason: "", plan: { limitSeconds: 40 } };
    },
  },
  [`${folder}/read-record-past.ts`]: {
    by: "coach",
    input: () => ({ map: "comments", key: "a-comment" }),
    refused: { reader: "not-allowed" },
    readsOnly: true,
  },
  [`${folder}/record-real-time.ts`]: {
    by: "soloist",
    input: ({ performance }) => ({ performanceId: performance.id, realSeconds: 40, remarks: "" }),
  },
  [`${folder}/release-rest-need.ts`]: { by: "soloist", input: namesNeed, refused: onlySoloist },
  [`${folder}/remove-member.ts`]: {
    by: "pianist",
    input: ({ coach }) => ({ userId: coach.userId }),
    refused: { reader: "not-allowed" }, // The coach may: everybody may leave.
  },
  [`${folder}/remove-rest-need.ts`]: { by: "soloist", input: namesNeed, refused: onlySoloist },
  [`${folder}/reopen-proposal.ts`]: { by: "pianist", input: ({ agreed }) => ({ proposalId: agreed.id }) },
  [`${folder}/restore-edition.ts`]: {
    by: "soloist",
    // A fermata is held twice its length since № 1.
    input: ({ workingHash }) => ({ editionNumber: 1, workingHash }),
  },
  [`${folder}/restore-piece.ts`]: {
    by: "soloist",
    input: () => ({}),
    // It is not deleted then.
    refused: { pianist: "not-found", coach: "not-found", reader: "not-found" },
    before: async ({ pianist, pieceId }) =>
      valued(await deletePiece(pianist, pieceId, { title: "Concertino" })),
  },
  [`${folder}/restore-rest-need.ts`]: {
    by: "soloist",
    input: namesNeed,
    refused: onlySoloist,
    before: async ({ soloist, pieceId, need }) =>
      valued(await removeRestNeed(soloist, pieceId, { needId: need.id })),
  },
  [`${folder}/revoke-invitation.ts`]: {
    by: "soloist",
    input: ({ invitation }) => ({ invitationId: invitation.id }),
  },
  [`${folder}/revoke-reader-link.ts`]: {
    by: "soloist",
    input: ({ readerLink }) => ({ readerLinkId: readerLink.id }),
  },
  [`${folder}/set-breath-preferences.ts`]: {
    by: "soloist",
    input: () => ({
      preferences: { comfortableSeconds: 11, catchSeconds: 0.3, restPerPlayed: null, windowSeconds: 60 },
    }),
    refused: onlySoloist,
  },
  [`${folder}/set-limit.ts`]: { by: "soloist", input: () => ({ limitSeconds: 300 }) },
  [`${folder}/set-long-tutti-bars.ts`]: { by: "soloist", input: () => ({ longTuttiBars: 4 }) },
  [`${folder}/set-part-roles.ts`]: { by: "soloist", input: () => ({ partRoles: { P2: "orchestra" } }) },
  [`${folder}/set-tempo-settings.ts`]: { by: "soloist", input: () => ({ settings: printedTempo }) },
  [`${folder}/weigh-cut.ts`]: {
    by: "reader",
    input: () => ({ from: { barIndex: 18, offset: "0" }, to: { barIndex: 20, offset: "0" }, number: null }),
    refused: {},
    readsOnly: true,
  },
  [`${folder}/withdraw-approval.ts`]: {
    by: "soloist",
    input: () => ({}),
    before: async (desk) => {
      await withdrawOpen(desk);
      return valued(await approveEdition(desk.soloist, desk.pieceId, { hash: desk.workingHash }));
    },
  },
  [`${folder}/withdraw-proposal.ts`]: {
    by: "pianist",
    input: ({ open }) => ({ proposalId: open.id }),
    refused: { soloist: "not-allowed", coach: "not-allowed", reader: "not-allowed" },
  },
};

/** Actions that are open to people who belong to nothing yet; each has a test of its own. */
export const openActions = [
  "app/(desk)/account/actions/change-password.ts",
  "app/(desk)/account/actions/remove-account.ts",
  "app/(desk)/account/actions/set-hands.ts",
  "app/(desk)/performances/actions/draw-up-programme.ts",
  "app/(desk)/pieces/[pieceId]/actions/set-wants-digest.ts",
  "app/invitation/[token]/actions/accept-invitation.ts",
  "app/invitation/[token]/actions/join-with-account.ts",
  "app/sign-in/actions/create-account.ts",
  "app/sign-in/actions/sign-in.ts",
  "app/sign-in/actions/sign-out-everywhere.ts",
  "app/sign-in/actions/sign-out.ts",
];
