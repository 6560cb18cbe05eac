import type { ReadingFor } from "@/lib/engrave/pages/reading-plan";

/** An edition as one person reads it page by page. */
export interface EditionOnStand {
  readonly pieceId: string;
  readonly number: number;
  /** Whose pages. */
  readonly reader: ReadingFor;
}

/** The page it is read on. */
export function pageOfEdition({ pieceId, number }: Pick<EditionOnStand, "pieceId" | "number">): string {
  return `/pieces/${pieceId}/read/${number}`;
}

/** Where the plan of its pages is asked for. */
export function planOfEdition({ pieceId, number, reader }: EditionOnStand): string {
  return `/api/pieces/${pieceId}/editions/${number}/reading?for=${reader}`;
}
