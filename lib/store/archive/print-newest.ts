import { type PageReader, pagesName } from "@/lib/archive/printed-pages";
import { readEditionContent } from "@/lib/edition/edition-content";
import { EngraveFailure } from "@/lib/engrave/engrave-problem";
import { printEdition } from "@/lib/engrave/pdf/print-edition";
import { defaultPrintOptions } from "@/lib/engrave/pdf/print-options";
import { printInputOf } from "../editions/print-input-of";
import type { WholePiece } from "./read-whole-piece";

const readers: readonly PageReader[] = ["pianist", "soloist"];

/**
 * The newest edition of a piece on A4, as PDFs for both players by the names that an archive gives them; none before the first
 * edition, and none where it cannot be printed now: an archive is whole without.
 */
export async function printNewest(row: WholePiece): Promise<Map<string, Uint8Array>> {
  const pages = new Map<string, Uint8Array>();
  const newest = row.editions.at(-1);
  if (!newest) return pages;
  try {
    for (const reader of readers) {
      const { pdf } = await printEdition(inputOf(row, newest, reader));
      pages.set(pagesName(newest.number, reader), pdf);
    }
    return pages;
  } catch (error) {
    if (error instanceof EngraveFailure) return new Map();
    throw error;
  }
}

function inputOf(row: WholePiece, edition: WholePiece["editions"][number], reader: PageReader) {
  const { title, movement, composer, soloInstrument } = row;
  const content = readEditionContent(edition.content);
  const options = defaultPrintOptions(reader);
  const source = row.sources.find(({ hash }) => hash === content.sourceHash)?.bytes?.bytes;
  if (!source) throw new Error(`the source of edition № ${edition.number} is missing`);
  const pinned = row.pageBreaks.filter(
    (pin) =>
      pin.removedAt === null &&
      pin.reader === reader &&
      pin.paper === options.paper &&
      pin.sourceHash === content.sourceHash,
  );
  const approvals = edition.approvals.toSorted(
    (a, b) => a.at.getTime() - b.at.getTime() || Number(a.role > b.role) - Number(a.role < b.role),
  );
  return printInputOf(
    {
      piece: { title, movement, composer, soloInstrument },
      edition: { ...edition, content, approvals },
      source,
    },
    options,
    pinned.map(({ barIndex }) => barIndex),
  );
}
