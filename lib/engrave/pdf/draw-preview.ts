import type { EditionPreview } from "../pages/edition-preview";
import type { Engraver } from "../toolkit";
import { drawPagePicture } from "./page-picture";
import { placeEdition } from "./place-edition";
import { openPrintFonts } from "./print-fonts";
import type { PrintInput } from "./print-input";
import { TypeSetter } from "./type-setter";

/** Share of the time that engraving takes; drawing the pages is the rest. */
const engravingShare = 0.8;

/** Draws the pages of an edition as pictures; to be run in the thread that engraves. See `previewEdition`. */
export async function drawPreview(
  toolkit: Engraver["toolkit"],
  input: PrintInput,
  onProgress: (progress: number) => void,
): Promise<EditionPreview> {
  const fonts = await openPrintFonts(toolkit);
  const type = new TypeSetter(fonts);
  const laidOut = placeEdition(toolkit, fonts, input, (done) => onProgress(engravingShare * done));
  const { width, height } = laidOut;
  const pages = laidOut.pages.map((page) => {
    const svg = drawPagePicture(type, laidOut, page);
    onProgress(engravingShare + (1 - engravingShare) * (page.number / laidOut.pages.length));
    const systems = page.systems.map(({ firstBar, lastBar }) => ({ firstBar, lastBar }));
    return { number: page.number, turn: page.turn, systems, svg };
  });
  return { width, height, pages, bars: laidOut.bars };
}
