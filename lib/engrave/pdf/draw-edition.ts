import { layOutPages, type PageLayout } from "../pages/lay-out-pages";
import { describeTurn, type PageTurn } from "../pages/page-turn";
import type { EngravedSystem } from "../screen-engraving";
import type { Engraver } from "../toolkit";
import { PdfPages, paperSizes } from "./pdf-page";
import { placeSystems } from "./place-systems";
import { type EditionPages, type PrintedBar, prepareEdition } from "./prepare-edition";
import { openPrintFonts } from "./print-fonts";
import type { PrintedEdition, PrintInput } from "./print-input";
import { drawFooter, drawTitleBlock, nameEdition, sideMargin } from "./title-block";

/** Share of the time that engraving takes; drawing the pages is the rest. */
const engravingShare = 0.5;
/** Baseline of the sign for a turn, under the last line of music, in points. */
const signBelow = 8;

/** Draws an edition; to be run in the thread that engraves. See `printEdition`. */
export async function drawEdition(
  toolkit: Engraver["toolkit"],
  input: PrintInput,
  onProgress: (progress: number) => void,
): Promise<PrintedEdition> {
  const fonts = await openPrintFonts(toolkit);
  const { titleBlock, reader, paper } = input;
  const pages = new PdfPages(fonts, paper, {
    title: nameEdition(titleBlock),
    author: titleBlock.composer ?? "",
    subject: reader === "pianist" ? "Solo and piano" : "Solo part",
  });
  pages.addPage();
  const firstTop = drawTitleBlock(pages, titleBlock, namePart(input));
  const edition = prepareEdition(toolkit, input, firstTop, engravingProgress(onProgress));
  const layout = layOutPages(edition.layout);
  const turns = describeTurns(layout, edition.bars);
  drawSystems(pages, input, { edition, layout, turns }, (done) =>
    onProgress(engravingShare + (1 - engravingShare) * done),
  );
  return { pdf: await pages.finish(), pageCount: layout.counts.length, turns };
}

function namePart({ reader, titleBlock }: PrintInput): string {
  const solo = titleBlock.soloInstrument ?? "Solo";
  return reader === "pianist" ? `Piano, with ${solo.toLowerCase()}` : solo;
}

/** The first engraving takes three fifths of its share; a second, with chosen lines, the rest. Never goes back. */
function engravingProgress(onProgress: (progress: number) => void): (done: number) => void {
  let [base, share, last] = [0, 0.6, 0];
  return (done) => {
    if (done < last) [base, share] = [0.6, 0.4];
    last = done;
    onProgress(engravingShare * (base + share * done));
  };
}

function describeTurns({ turns }: PageLayout, bars: readonly PrintedBar[]): PageTurn[] {
  return turns.map(({ pageIndex, barIndex, moments }) => {
    const { id = "", label = "" } = bars[barIndex] ?? {};
    return describeTurn({ page: pageIndex + 1, barId: id, barLabel: label }, moments);
  });
}

interface Drawing {
  readonly edition: EditionPages;
  readonly layout: PageLayout;
  readonly turns: readonly PageTurn[];
}

function drawSystems(
  pages: PdfPages,
  { titleBlock }: PrintInput,
  { edition: { layout: input, bars, width }, layout: { systems, counts }, turns }: Drawing,
  onProgress: (done: number) => void,
): void {
  const { heightOf, room } = input;
  const placedPages = placeSystems(systems.map(heightOf), counts, room);
  for (const [index, page] of placedPages.entries()) {
    if (index > 0) pages.addPage();
    let end = 0;
    for (const placed of page) {
      const system = systems[placed.index];
      if (!system) continue;
      pages.picture(nameBars(system, bars), () => pages.system(system, sideMargin, placed.y, width));
      end = placed.y + heightOf(system);
    }
    const turn = turns.find((each) => each.page === index + 1);
    if (turn) drawTurnSign(pages, turn, Math.min(end, room.bottom) + signBelow);
    drawFooter(pages, titleBlock, index + 1, placedPages.length);
    onProgress((index + 1) / placedPages.length);
  }
}

function nameBars({ firstBarIndex, lastBarIndex }: EngravedSystem, bars: readonly PrintedBar[]): string {
  const [first, last] = [bars[firstBarIndex]?.label, bars[lastBarIndex]?.label];
  return first === last ? `Bar ${first}` : `Bars ${first} to ${last}`;
}

/** "V.S." or "time", where the eye is when the page ends: under the end of its last line. */
function drawTurnSign(pages: PdfPages, { sign }: PageTurn, y: number): void {
  if (sign === null) return;
  const { width } = paperSizes[pages.paper];
  const face = sign === "V.S." ? "serif-bold-italic" : "serif-italic";
  pages.say("P", () => pages.text(sign, width - sideMargin, y, { face, size: 11, align: "right" }));
}
