import type { Notice } from "@/lib/score/notice";
import { type Result, success } from "@/lib/score/result";
import { takeTry } from "../auth/rate-limit";
import { inPiece, noteChange } from "../in-piece";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { newSource, readUpload, type UploadedFile } from "./create-piece";

/** Lays the orchestra's full score beside a piece; an earlier one stays stored. */
export async function attachFullScore(
  viewer: Viewer,
  pieceId: string,
  file: UploadedFile,
): Promise<Result<{ notices: readonly Notice[] }, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId, "attach-source");
  if (!membership.ok) return membership;
  const limit = await takeTry("uploadByPerson", viewer.userId);
  if (!limit.ok) return limit;
  const read = readUpload(file);
  if (!read.ok) return read;
  return inPiece(viewer, pieceId, "attach-source", async (work) => {
    const source = newSource("full_score", file, read.value.score, viewer);
    const where = { pieceId_kind_hash: { pieceId, kind: source.kind, hash: source.hash } };
    const known = await work.tx.source.findUnique({ where });
    if (!known) await work.tx.source.create({ data: { ...source, piece: { connect: { id: pieceId } } } });
    await noteChange(work, { what: "full score attached", about: { hash: source.hash }, change: "sources" });
    return success({ notices: read.value.notices });
  });
}
