import { isoDateOf } from "@/lib/calendar/iso-date";
import type { EditionContent } from "@/lib/edition/edition-content";
import type { ReadingFor } from "@/lib/engrave/pages/reading-plan";
import type { MemberRole } from "../who-may";
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
  return {
    ...{ title, movement, composer, soloInstrument },
    editionNumber: edition.number,
    frozenOn: isoDateOf(edition.frozenAt),
    readers: readersOf(edition.content),
  };
}

function readersOf({ partRoles }: Pick<EditionContent, "partRoles">): readonly ReadingFor[] {
  return Object.values(partRoles).includes("solo") ? ["pianist", "soloist"] : ["pianist"];
}

/** Whose pages of an edition a member reads, unless they ask for others. */
export function ownPages(role: MemberRole, content: Pick<EditionContent, "partRoles">): ReadingFor {
  return role === "soloist" && readersOf(content).includes("soloist") ? "soloist" : "pianist";
}
