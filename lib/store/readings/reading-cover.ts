import { isoDateOf } from "@/lib/calendar/iso-date";
import type { ReadingFor } from "@/lib/engrave/pages/reading-plan";
import type { EditionOfPiece } from "./find-edition";

/** What stands on the bar over the pages. */
export interface ReadingCover {
  readonly title: string;
  readonly movement: string | null;
  readonly composer: string | null;
  readonly editionNumber: number;
  /** ISO date. */
  readonly frozenOn: string;
  /** "Trombone"; null when nobody has said. */
  readonly soloInstrument: string | null;
  /** Whose pages there are: a source without a solo part has the pianist's only. */
  readonly readers: readonly ReadingFor[];
}

export function coverOf({ piece, edition }: EditionOfPiece): ReadingCover {
  const { title, movement, composer, soloInstrument } = piece;
  const hasSolo = Object.values(edition.content.partRoles).includes("solo");
  return {
    ...{ title, movement, composer, soloInstrument },
    editionNumber: edition.number,
    frozenOn: isoDateOf(edition.frozenAt),
    readers: hasSolo ? ["pianist", "soloist"] : ["pianist"],
  };
}
