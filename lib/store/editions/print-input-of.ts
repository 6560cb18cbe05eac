import { isoDateOf } from "@/lib/calendar/iso-date";
import { toCutSpan } from "@/lib/edition/cut-terms";
import { toTempoSettings } from "@/lib/edition/tempo-terms";
import type { PrintInput, TitleBlock } from "@/lib/engrave/pdf/print-input";
import type { PrintOptions } from "@/lib/engrave/pdf/print-options";
import { insideLine } from "@/lib/engrave/pdf/title-block";
import type { PieceRecord } from "../pieces/piece-record";
import type { EditionRecord } from "./edition-record";

/** What of an edition is printed. */
type PrintedEditionRecord = Pick<EditionRecord, "number" | "hash" | "frozenAt" | "content"> & {
  readonly approvals: readonly Pick<EditionRecord["approvals"][number], "name" | "role" | "at">[];
};

/** An edition with its music, from which pages are made. */
export interface EditionPrint {
  readonly piece: Pick<PieceRecord, "title" | "movement" | "composer" | "soloInstrument">;
  readonly edition: EditionRecord;
  readonly source: Uint8Array;
}

/**
 * What an edition is printed from.
 *
 * @param pinnedBars bars of the source, by index, that begin a page because a player decided so.
 */
export function printInputOf(
  { piece, edition, source }: Omit<EditionPrint, "edition"> & { readonly edition: PrintedEditionRecord },
  options: PrintOptions,
  pinnedBars: readonly number[],
): PrintInput {
  const { partRoles, cuts, tempo, breaths, cues, rewrites, remarks } = edition.content;
  return {
    ...{ sourceMusicXml: source, partRoles, options, pinnedBars },
    cuts: cuts.map(toCutSpan),
    marks: { breaths, cues, rewrites, remarks },
    tempo: toTempoSettings(tempo),
    titleBlock: titleBlockOf(piece, edition),
  };
}

/** What stands over the music of an edition, and at its foot. */
export function titleBlockOf(
  piece: EditionPrint["piece"],
  edition: Omit<PrintedEditionRecord, "content">,
): TitleBlock {
  const { title, movement, composer, soloInstrument } = piece;
  return {
    ...{ title, movement, composer, soloInstrument },
    editionNumber: edition.number,
    frozenOn: isoDateOf(edition.frozenAt),
    hash: edition.hash,
    players: edition.approvals.map(({ name, role, at }) => ({
      name,
      role: role === "pianist" ? "piano" : insideLine(soloInstrument ?? "solo"),
      agreedOn: isoDateOf(at),
    })),
  };
}
