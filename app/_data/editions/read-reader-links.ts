import { listReaderLinks } from "@/lib/store/readers/list-reader-links";
import type { Viewer } from "@/lib/store/viewer";

/** A link to an edition that still works. Days and times are ISO 8601, UTC. */
export interface ReaderLinkView {
  readonly id: string;
  readonly forWhom: string;
  readonly editionNumber: number;
  readonly madeBy: string;
  readonly lastDay: string;
  readonly openedAt: string | null;
}

export interface ReaderLinksView {
  readonly links: readonly ReaderLinkView[];
  /** ISO 8601 date. */
  readonly suggestedLastDay: string;
}

/** The links of a piece's editions; null for somebody who has no say in them. */
export async function readReaderLinks(viewer: Viewer, pieceId: string): Promise<ReaderLinksView | null> {
  const read = await listReaderLinks(viewer, pieceId);
  if (!read.ok) return null;
  const { links, suggestedLastDay } = read.value;
  return {
    suggestedLastDay,
    links: links.map(({ id, forWhom, editionNumber, madeBy, lastDay, openedAt }) => ({
      ...{ id, forWhom, editionNumber, madeBy, lastDay },
      openedAt: openedAt?.toISOString() ?? null,
    })),
  };
}
