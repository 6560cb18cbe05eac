import { type Result, success } from "@/lib/score/result";
import { now } from "../clock";
import { database } from "../database";
import { readMembership } from "../read-membership";
import type { StoreProblem } from "../store-problem";
import type { Viewer } from "../viewer";
import { lastDayOf, suggestLastDay } from "./choose-expiry";
import { findNextPerformance } from "./find-next-performance";

export interface ReaderLinkRecord {
  readonly id: string;
  readonly forWhom: string;
  readonly editionNumber: number;
  readonly madeBy: string;
  readonly createdAt: Date;
  /** ISO 8601 date. */
  readonly lastDay: string;
  /** When it was last opened; null when it never was. */
  readonly openedAt: Date | null;
}

export interface ReaderLinks {
  /** Those that still work, the newest first, without their addresses: these are shown only once. */
  readonly links: readonly ReaderLinkRecord[];
  /** The last day of a link when nothing else is said (ISO 8601 date). */
  readonly suggestedLastDay: string;
}

/** The links to editions of a piece. They are the players' to see. */
export async function listReaderLinks(
  viewer: Viewer,
  pieceId: string,
): Promise<Result<ReaderLinks, StoreProblem>> {
  const membership = await readMembership(viewer, pieceId, "invite");
  if (!membership.ok) return membership;
  const rows = await database().readerLink.findMany({
    where: { pieceId, revokedAt: null, expiresAt: { gt: now() } },
    orderBy: { createdAt: "desc" },
    include: { madeBy: { select: { name: true } }, edition: { select: { number: true } } },
  });
  return success({
    links: rows.map(({ id, forWhom, createdAt, expiresAt, openedAt, madeBy, edition }) => ({
      ...{ id, forWhom, createdAt, openedAt },
      lastDay: lastDayOf(expiresAt),
      madeBy: madeBy.name,
      editionNumber: edition.number,
    })),
    suggestedLastDay: suggestLastDay(now(), await findNextPerformance(pieceId)),
  });
}
