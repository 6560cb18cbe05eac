import type * as Y from "yjs";
import { findHeads } from "./find-heads";
import type { PencilledVersionRecord } from "./pencilled-version-record";
import type { PencilledTerms } from "./pencilled-versions";
import { readRecords } from "./read-records";
import { maxOver } from "./room-limits";

/** Who writes, when, and how new records are named. */
export interface Writing {
  readonly authorId: string;
  /** ISO 8601, UTC. */
  readonly at: string;
  readonly newId: () => string;
}

/**
 * The versions that put `terms` over all that stands of a pencilled cut: a move, a rubbing out, a bringing back or
 * the settling of a dispute. Nothing is written yet.
 *
 * @param cutId a cut of the room, or a new one's name.
 * @returns one version; more only where more stand at once than one version may name. To be written in order, in
 * one transaction.
 */
export function writeOver(
  doc: Y.Doc,
  cutId: string,
  terms: PencilledTerms,
  writing: Writing,
): PencilledVersionRecord[] {
  const versions = readRecords(doc, "pencilledCuts").filter((record) => record.cutId === cutId);
  const heads = findHeads(versions).map(({ id }) => id);
  return overAll(heads, cutId, terms, writing);
}

/** The same over given versions. */
export function overAll(
  heads: readonly string[],
  cutId: string,
  { from, to, isRubbedOut }: PencilledTerms,
  { authorId, at, newId }: Writing,
): PencilledVersionRecord[] {
  const written: PencilledVersionRecord[] = [];
  let open = [...heads];
  do {
    const over = open.slice(0, maxOver);
    const id = newId();
    written.push({ id, cutId, authorId, createdAt: at, from, to, over, isRubbedOut });
    open = [...open.slice(maxOver), id];
  } while (open.length > 1);
  return written;
}
