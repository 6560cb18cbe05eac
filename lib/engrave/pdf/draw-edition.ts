import type { Engraver } from "../toolkit";
import { pageShapes } from "./page-shape";
import { PdfPages } from "./pdf-page";
import { placeEdition } from "./place-edition";
import { openPrintFonts } from "./print-fonts";
import type { PrintedEdition, PrintInput } from "./print-input";
import { nameEdition } from "./title-block";

/** Share of the time that engraving takes; drawing the pages is the rest. */
const engravingShare = 0.7;

/** Draws an edition; to be run in the thread that engraves. See `printEdition`. */
export async function drawEdition(
  toolkit: Engraver["toolkit"],
  input: PrintInput,
  onProgress: (progress: number) => void,
): Promise<PrintedEdition> {
  const fonts = await openPrintFonts(toolkit);
  const { titleBlock, options } = input;
  const { pages } = placeEdition(toolkit, fonts, input, (done) => onProgress(engravingShare * done));
  const pdf = new PdfPages(fonts, pageShapes[options.paper], {
    title: nameEdition(titleBlock),
    author: titleBlock.composer ?? "",
    subject: options.reader === "pianist" ? "Solo and piano" : "Solo part",
    on: titleBlock.frozenOn,
  });
  for (const { number, systems, head, foot } of pages) {
    pdf.addPage();
    for (const words of head) pdf.words(words);
    for (const { alt, system, x, y, width } of systems)
      pdf.picture(alt, () => pdf.system(system, x, y, width));
    for (const words of foot) pdf.words(words);
    onProgress(engravingShare + (1 - engravingShare) * (number / pages.length));
  }
  const turns = pages.flatMap(({ turn }) => (turn ? [turn] : []));
  return { pdf: await pdf.finish(), pageCount: pages.length, turns };
}
