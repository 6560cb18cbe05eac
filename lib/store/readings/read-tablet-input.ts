import type { ReadingFor } from "@/lib/engrave/pages/reading-plan";
import type { PrintInput } from "@/lib/engrave/pdf/print-input";
import { markKinds, printOptionsSchema } from "@/lib/engrave/pdf/print-options";
import { database } from "../database";
import { printInputOf } from "../editions/print-input-of";
import type { EditionOfPiece } from "./find-edition";

const paper = "tablet";
/** A size below print: a tablet stands nearer than paper. On one of 834 pixels across, 24 and 27 pixels. */
const staffs = { pianist: "small", soloist: "medium" } as const;

/** An edition as it is laid out for one reader's tablet. */
export async function readTabletInput(
  { pieceId, piece, edition }: EditionOfPiece,
  reader: ReadingFor,
): Promise<PrintInput> {
  const { sourceHash } = edition.content;
  const source = await database().source.findFirstOrThrow({
    where: { pieceId, hash: sourceHash },
    include: { bytes: true },
  });
  if (!source.bytes) throw new Error(`the source of edition № ${edition.number} of ${pieceId} has no bytes`);
  const marks = markKinds.filter((kind) => kind !== "lead-ins" || reader === "soloist");
  const options = printOptionsSchema.parse({ reader, paper, marks, staff: staffs[reader] });
  const pinnedBars = await findPinnedBars(pieceId, reader, sourceHash);
  return printInputOf({ piece, edition, source: source.bytes.bytes }, options, pinnedBars);
}

async function findPinnedBars(pieceId: string, reader: ReadingFor, sourceHash: string): Promise<number[]> {
  const rows = await database().pageBreak.findMany({
    where: { pieceId, reader, paper, sourceHash, removedAt: null },
    orderBy: { barIndex: "asc" },
    select: { barIndex: true },
  });
  return rows.map(({ barIndex }) => barIndex);
}
