import { z } from "zod";
import { failure, type Result, success } from "@/lib/score/result";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { type EngravingSummary, systemSummarySchema } from "./engraving-record";

/** A kept engraving of a piece; null when it is not kept. For the store: whoever asks has been checked. */
export async function findEngraving(pieceId: string, key: string): Promise<EngravingSummary | null> {
  const row = await database().engraving.findUnique({ where: { pieceId_key: { pieceId, key } } });
  if (!row) return null;
  const systems = z.array(systemSummarySchema).parse(row.summary);
  return { key, rendererVersion: row.rendererVersion, systems };
}

/**
 * The picture of one system, as SVG packed with gzip.
 *
 * @returns "not-found" for a stranger, and for a key that is none of this piece's.
 */
export async function readEngravedSystem(
  viewer: Viewer,
  pieceId: string,
  key: string,
  index: number,
): Promise<Result<Uint8Array<ArrayBuffer>, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId);
  if (!membership.ok) return membership;
  const row = await database().engravedSystem.findUnique({
    where: { pieceId_key_index: { pieceId, key, index } },
    select: { svg: true },
  });
  return row ? success(row.svg) : failure({ kind: "not-found" });
}
