import { toCutSpan } from "@/lib/edition/cut-terms";
import { toTempoSettings } from "@/lib/edition/tempo-terms";
import type { PrintInput, TitleBlock } from "@/lib/engrave/pdf/print-input";
import type { PrintOptions } from "@/lib/engrave/pdf/print-options";
import { insideLine } from "@/lib/engrave/pdf/title-block";
import { type Result, success } from "@/lib/score/result";
import type { EditionRecord } from "@/lib/store/editions/edition-record";
import { readEdition } from "@/lib/store/editions/read-edition";
import type { PieceRecord } from "@/lib/store/pieces/piece-record";
import { readPiece } from "@/lib/store/pieces/read-piece";
import { readSourceBytes } from "@/lib/store/pieces/read-source-bytes";
import type { StoreProblem } from "@/lib/store/store-problem";
import type { Viewer } from "@/lib/store/viewer";

/** An edition with its music, from which pages are made. */
export interface EditionPrint {
  readonly piece: Pick<PieceRecord, "title" | "movement" | "composer" | "soloInstrument">;
  readonly edition: EditionRecord;
  readonly source: Uint8Array;
}

/** An edition for somebody who belongs to the piece. */
export async function readEditionPrint(
  viewer: Viewer,
  pieceId: string,
  number: number,
): Promise<Result<EditionPrint & { readonly piece: PieceRecord }, StoreProblem>> {
  const piece = await readPiece(viewer, pieceId);
  if (!piece.ok) return piece;
  const edition = await readEdition(viewer, pieceId, number);
  if (!edition.ok) return edition;
  const source = await readSourceBytes(viewer, pieceId, { hash: edition.value.content.sourceHash });
  if (!source.ok) return source;
  return success({ piece: piece.value, edition: edition.value, source: source.value.bytes });
}

/** @param pinnedBars bars of the source, by index, that begin a page because a player decided so. */
export function printInputOf(
  { piece, edition, source }: EditionPrint,
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
export function titleBlockOf(piece: EditionPrint["piece"], edition: EditionRecord): TitleBlock {
  const { title, movement, composer, soloInstrument } = piece;
  return {
    ...{ title, movement, composer, soloInstrument },
    editionNumber: edition.number,
    frozenOn: dateOf(edition.frozenAt),
    hash: edition.hash,
    players: edition.approvals.map(({ name, role, at }) => ({
      name,
      role: role === "pianist" ? "piano" : insideLine(soloInstrument ?? "solo"),
      agreedOn: dateOf(at),
    })),
  };
}

export const dateOf = (date: Date): string => date.toISOString().slice(0, 10);
