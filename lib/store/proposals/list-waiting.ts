import { database } from "../database";
import { readWorkingPiece } from "../editions/working-edition";
import { titleWithOccasion } from "../pieces/occasion-name";
import type { Viewer } from "../viewer";
import type { MemberRole } from "../who-may";
import { isOwnProposal } from "./is-own-proposal";
import {
  type ProposalRecord,
  proposalParts,
  type RewriteProposalRecord,
  toEitherRecord,
} from "./proposal-record";

interface WaitingAt {
  readonly pieceId: string;
  readonly pieceTitle: string;
  /** Who asks. */
  readonly from: string;
  readonly since: Date;
}

/** Something that waits for the viewer's answer. */
export type Waiting =
  | (WaitingAt & { readonly kind: "proposal"; readonly proposal: ProposalRecord })
  | (WaitingAt & {
      readonly kind: "rewrite";
      readonly proposal: RewriteProposalRecord;
      /** The version that is asked about, on the screen of the hands. */
      readonly rewriteId: string;
    })
  | (WaitingAt & { readonly kind: "edition"; readonly editionNumber: number; readonly hash: string });

/** Everything that waits for an answer of the viewer's, in all pieces, the oldest first. */
export async function listWaiting(viewer: Viewer): Promise<Waiting[]> {
  const memberships = await database().member.findMany({
    where: {
      ...{ userId: viewer.userId, removedAt: null, piece: { deletedAt: null } },
      role: { in: ["pianist", "soloist"] },
    },
    select: {
      ...{ pieceId: true, role: true },
      piece: {
        select: { title: true, branchName: true, members: { select: { userId: true, role: true } } },
      },
    },
  });
  const all = await Promise.all(
    memberships.map(({ pieceId, role, piece: { title, branchName, members } }) =>
      findWaiting(
        { userId: viewer.userId, role },
        { pieceId, pieceTitle: titleWithOccasion(title, branchName), people: members },
      ),
    ),
  );
  return all.flat().sort((a, b) => a.since.getTime() - b.since.getTime());
}

interface Somebody {
  readonly userId: string;
  readonly role: MemberRole;
}

async function findWaiting(
  me: Somebody,
  { people, ...piece }: { pieceId: string; pieceTitle: string; people: readonly Somebody[] },
): Promise<Waiting[]> {
  const rows = await database().proposal.findMany({
    where: { pieceId: piece.pieceId, state: "open" },
    include: { ...proposalParts, proposedBy: { select: { name: true } }, rewrite: { select: { id: true } } },
  });
  const ofOthers = rows.filter(({ proposedById }) => !isOwnProposal(me, people, proposedById));
  const proposals = ofOthers.map((row): Waiting => {
    const asked = { ...piece, from: row.proposedBy.name, since: row.createdAt };
    const proposal = toEitherRecord(row);
    if (proposal.kind === "cut") return { ...asked, kind: "proposal", proposal };
    // A question about a rewrite is put together with the version that it is about.
    if (!row.rewrite) throw new Error(`proposal ${row.id} is about no rewrite`);
    return { ...asked, kind: "rewrite", proposal, rewriteId: row.rewrite.id };
  });
  return [...proposals, ...(await findFreezing(me, piece))];
}

async function findFreezing(
  viewer: Viewer,
  piece: { pieceId: string; pieceTitle: string },
): Promise<Waiting[]> {
  const pending = await database().approval.count({ where: { pieceId: piece.pieceId, endedAt: null } });
  if (pending === 0) return [];
  const { approvals, canFreeze, players, number, hash } = await readWorkingPiece(piece.pieceId);
  const [first] = approvals;
  if (!canFreeze || !first || approvals.some(({ userId }) => userId === viewer.userId)) return [];
  const from = players.find(({ userId }) => userId === first.userId)?.name ?? "";
  return [{ ...piece, kind: "edition", from, since: first.at, editionNumber: number, hash }];
}
