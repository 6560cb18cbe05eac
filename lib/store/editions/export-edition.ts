import type { ArchivedEdition, EditionArchive } from "@/lib/edition/archive/edition-archive";
import { writeEditionArchive } from "@/lib/edition/archive/write-edition-archive";
import { failure, type Result, success } from "@/lib/score/result";
import { readPiece } from "../pieces/read-piece";
import { readSourceBytes } from "../pieces/read-source-bytes";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import type { EditionApprovalRecord, EditionRecord } from "./edition-record";
import { listEditions } from "./list-editions";

export interface ExportedEdition {
  /** Of the piece, for the name of the file. */
  readonly title: string;
  /** A zip archive: see `writeEditionArchive`. */
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/**
 * An edition to take along, with every edition before it and the music they were made on. Nothing of the players'
 * discussion is in it, so that whoever may read the edition may have it.
 *
 * @param rendererVersion what engraves its pages now.
 */
export async function exportEdition(
  viewer: Viewer,
  pieceId: string,
  number: number,
  rendererVersion: string,
): Promise<Result<ExportedEdition, StoreProblem>> {
  const piece = await readPiece(viewer, pieceId);
  if (!piece.ok) return piece;
  const listed = await listEditions(viewer, pieceId);
  if (!listed.ok) return listed;
  const chain = listed.value.filter((edition) => edition.number <= number).reverse();
  if (chain.at(-1)?.number !== number) return failure({ kind: "not-found" });
  const sources = await readSources(viewer, pieceId, chain);
  if (!sources.ok) return sources;
  const { title, movement, composer, soloInstrument } = piece.value;
  const archive: EditionArchive = {
    piece: { title, movement, composer, soloInstrument },
    ...{ rendererVersion, editions: chain.map(toArchived), sources: sources.value },
  };
  return success({ title, bytes: writeEditionArchive(archive) });
}

/** Every file that an edition of the chain was made on, once. */
async function readSources(
  viewer: Viewer,
  pieceId: string,
  chain: readonly EditionRecord[],
): Promise<Result<EditionArchive["sources"], StoreProblem>> {
  const sources = [];
  for (const hash of new Set(chain.map(({ content }) => content.sourceHash))) {
    const source = await readSourceBytes(viewer, pieceId, { hash });
    if (!source.ok) return source;
    sources.push(source.value);
  }
  return success(sources);
}

function toArchived({
  number,
  hash,
  previousHash,
  frozenAt,
  content,
  approvals,
}: EditionRecord): ArchivedEdition {
  return {
    ...{ number, hash, previousHash, frozenAt: frozenAt.toISOString(), content },
    approvals: approvals.map(({ name, role, at }) => ({
      ...{ name, role: playerRole(role), at: at.toISOString(), hash },
    })),
  };
}

function playerRole(role: EditionApprovalRecord["role"]): "pianist" | "soloist" {
  if (role === "pianist" || role === "soloist") return role;
  throw new Error(`an edition was approved by a ${role}`);
}
