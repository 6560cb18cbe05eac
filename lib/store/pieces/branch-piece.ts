import { z } from "zod";
import type { CutReasons } from "@/lib/edition/cut-reasons";
import type { EditionContent } from "@/lib/edition/edition-content";
import { failure, type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { database } from "../database";
import { readEdition } from "../editions/read-edition";
import { inPiece, noteChange, type PieceChangeWork } from "../in-piece";
import { parseInput } from "../parse-input";
import { putForward } from "../proposals/put-forward";
import { readMembership } from "../read-membership";
import { findReasons } from "../reasons/find-reasons";
import { copyRewrites } from "../rewrites/copy-rewrites";
import { carryRoomOver } from "../room/carry-room-over";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { copyIntoBranch } from "./copy-into-branch";
import { findOccasions, findRoot } from "./list-occasions";
import { isSameOccasion, occasionNameSchema } from "./occasion-name";
import { findMainSource } from "./score-of-source";
import { limitSchema } from "./set-limit";

const branchSchema = z.object({
  name: occasionNameSchema,
  /** What this piece itself is for; asked for the first time, when it has no name yet. */
  thisName: occasionNameSchema.nullable(),
  /** The edition whose cuts are put forward there; null to begin as printed. */
  editionNumber: z.int().min(1).max(100_000).nullable(),
  limitSeconds: limitSchema,
});

type Asked = z.infer<typeof branchSchema>;

export interface BranchedPiece {
  readonly pieceId: string;
}

/**
 * Prepares the same music for another occasion, in a piece of its own: the same source, parts, tempi, needed rests and
 * breaths, what the pianist plays instead of the print, the two players and the coach, its own limit. The cuts of the
 * edition it begins with, and the rewrites that were agreed to, are put forward there by the viewer, and the other player
 * answers each; nothing is agreed by it. It is made whole or not at all.
 */
export async function branchPiece(
  viewer: Viewer,
  pieceId: string,
  input: unknown,
): Promise<Result<BranchedPiece, StoreProblem>> {
  const asked = parseInput(branchSchema, input);
  if (!asked.ok) return asked;
  const membership = await readMembership(viewer, pieceId, "branch");
  if (!membership.ok) return membership;
  const start = await readStart(viewer, pieceId, asked.value.editionNumber);
  if (!start.ok) return start;
  const cuts = start.value?.content.cuts ?? [];
  const reasons = await findReasons(pieceId, { cuts, number: null, agreed: [] });
  return inPiece(viewer, pieceId, "branch", async (work) => {
    const named = await nameThis(work, asked.value);
    if (!named.ok) return named;
    const branchId = await makeBranch(work, asked.value, start.value);
    const inBranch = { ...work, membership: { ...work.membership, pieceId: branchId } };
    await putCutsForward(inBranch, cuts, reasons);
    await copyRewrites(inBranch, pieceId);
    // Nothing of the branch stands in this trail: not everybody who reads it belongs to the branch.
    const about = { thisName: asked.value.thisName };
    await noteChange(work, { what: "branch made", about, change: "settings" });
    return success({ pieceId: branchId });
  });
}

interface Start {
  readonly id: string;
  readonly content: EditionContent;
}

async function readStart(
  viewer: Viewer,
  pieceId: string,
  number: number | null,
): Promise<Result<Start | null, StoreProblem>> {
  if (number === null) return success(null);
  const edition = await readEdition(viewer, pieceId, number);
  if (!edition.ok)
    return failure({ kind: "invalid-input", sentence: `There is no edition № ${number} of this piece.` });
  const { content } = edition.value;
  const { id } = await database().edition.findUniqueOrThrow({
    where: { pieceId_number: { pieceId, number } },
    select: { id: true },
  });
  const source = await findMainSource(pieceId);
  if (source.hash === content.sourceHash) return success({ id, content });
  const sentence = `№ ${number} was made from another file, whose bars are not those of the piece now. Begin without cuts, or with a later edition.`;
  return failure({ kind: "conflict", sentence });
}

/** The first piece gets its name with the first branch; names that one person sees beside each other differ. */
async function nameThis(work: PieceChangeWork, asked: Asked): Promise<Result<null, StoreProblem>> {
  const { pieceId, userId } = work.membership;
  const occasions = await findOccasions({ userId }, pieceId, work.tx);
  const mine = occasions.find((occasion) => occasion.pieceId === pieceId)?.name ?? null;
  if (mine === null && asked.thisName === null)
    return failure({ kind: "invalid-input", sentence: "Say what this one is for, too." });
  const thisName = mine ?? asked.thisName ?? "";
  const others = occasions.filter((occasion) => occasion.pieceId !== pieceId).map(({ name }) => name ?? "");
  const taken = [thisName, ...others].find((name) => isSameOccasion(name, asked.name));
  if (taken !== undefined)
    return failure({
      kind: "conflict",
      sentence: `There is one for “${taken}” already. Give this one another name.`,
    });
  if (mine === null) await work.tx.piece.update({ where: { id: pieceId }, data: { branchName: thisName } });
  return success(null);
}

/** @returns the id of the new piece. */
async function makeBranch(work: PieceChangeWork, asked: Asked, start: Start | null): Promise<string> {
  const { tx, membership } = work;
  const { pieceId, userId } = membership;
  const branchId = await copyIntoBranch(tx, pieceId, {
    name: asked.name,
    limitSeconds: asked.limitSeconds,
    rootId: await findRoot(pieceId, tx),
    start,
  });
  await carryRoomOver(tx, pieceId, branchId);
  await tx.auditEntry.create({
    data: {
      ...{ pieceId: branchId, userId, what: "branch begun", at: now() },
      about: { editionNumber: asked.editionNumber },
    },
  });
  return branchId;
}

async function putCutsForward(
  work: PieceChangeWork,
  cuts: EditionContent["cuts"],
  reasons: readonly (CutReasons | null)[],
): Promise<void> {
  for (const [index, terms] of cuts.entries()) {
    const why = reasons[index] ?? null;
    const row = await putForward(work, { terms, reason: "", why, replaces: null });
    await noteChange(work, {
      what: "cut proposed",
      about: { proposalId: row.id, number: row.number, termsHash: row.termsHash },
      change: "proposals",
    });
  }
}
