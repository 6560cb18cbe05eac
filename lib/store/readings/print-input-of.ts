import { toCutSpan } from "@/lib/edition/cut-terms";
import { toTempoSettings } from "@/lib/edition/tempo-terms";
import type { ReadingFor } from "@/lib/engrave/pages/reading-plan";
import type { PrintInput, TitleBlock } from "@/lib/engrave/pdf/print-input";
import { markKinds, printOptionsSchema } from "@/lib/engrave/pdf/print-options";
import { database } from "../database";
import type { EditionRecord } from "../editions/edition-record";
import type { EditionOfPiece } from "./find-edition";

const paper = "tablet";
/** A size below print: a tablet stands nearer than paper. On one of 834 pixels across, 24 and 27 pixels. */
const staffs = { pianist: "small", soloist: "medium" } as const;

/** An edition as it is laid out for one reader's tablet. */
export async function printInputOf(
  { pieceId, piece, edition }: EditionOfPiece,
  reader: ReadingFor,
): Promise<PrintInput> {
  const { content } = edition;
  const { sourceHash, partRoles, cuts, tempo } = content;
  const source = await database().source.findFirstOrThrow({
    where: { pieceId, hash: sourceHash },
    include: { bytes: true },
  });
  if (!source.bytes) throw new Error(`the source of edition № ${edition.number} of ${pieceId} has no bytes`);
  const marks = markKinds.filter((kind) => kind !== "lead-ins" || reader === "soloist");
  return {
    ...{ partRoles, marks: content, sourceMusicXml: source.bytes.bytes },
    cuts: cuts.map(toCutSpan),
    tempo: toTempoSettings(tempo),
    options: printOptionsSchema.parse({ reader, paper, marks, staff: staffs[reader] }),
    titleBlock: titleBlockOf(piece, edition),
    pinnedBars: await findPinnedBars(pieceId, reader, sourceHash),
  };
}

async function findPinnedBars(pieceId: string, reader: ReadingFor, sourceHash: string): Promise<number[]> {
  const rows = await database().pageBreak.findMany({
    where: { pieceId, reader, paper, sourceHash, removedAt: null },
    orderBy: { barIndex: "asc" },
    select: { barIndex: true },
  });
  return rows.map(({ barIndex }) => barIndex);
}

function titleBlockOf(piece: EditionOfPiece["piece"], edition: EditionRecord): TitleBlock {
  const { title, movement, composer, soloInstrument } = piece;
  return {
    ...{ title, movement, composer, soloInstrument },
    editionNumber: edition.number,
    frozenOn: dateOf(edition.frozenAt),
    hash: edition.hash,
    players: edition.approvals.map(({ name, role, at }) => ({
      name,
      role: role === "pianist" ? "piano" : (soloInstrument ?? "solo"),
      agreedOn: dateOf(at),
    })),
  };
}

const dateOf = (date: Date): string => date.toISOString().slice(0, 10);
