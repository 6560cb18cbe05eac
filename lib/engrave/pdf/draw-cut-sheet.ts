import type { Engraver } from "../toolkit";
import type { CutSheetInput } from "./cut-sheet-input";
import { PdfPages } from "./pdf-page";
import { openPrintFonts } from "./print-fonts";

export async function drawCutSheet(toolkit: Engraver["toolkit"], input: CutSheetInput): Promise<Uint8Array> {
  const fonts = await openPrintFonts(toolkit);
  const pages = new PdfPages(fonts, input.paper, { title: "Cut sheet", author: "", subject: "" });
  pages.addPage();
  return pages.finish();
}
