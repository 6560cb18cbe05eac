import { cache } from "react";
import type { OccasionLink } from "@/app/_ui/occasion-switch";
import { listOccasions } from "@/lib/store/pieces/list-occasions";

/** An occasion of the same music, as a link, with its newest edition. */
export interface PieceOccasion extends OccasionLink {
  /** Null when none was frozen. */
  readonly lastEdition: number | null;
}

/** The occasions that this viewer belongs to, the first piece first; one alone when there is no other. Read once a request. */
export const readOccasions = cache(async (userId: string, pieceId: string): Promise<PieceOccasion[]> => {
  const read = await listOccasions({ userId }, pieceId);
  if (!read.ok) return [];
  return read.value.map(({ name, ...rest }) => ({ ...rest, name: name ?? "First version" }));
});
