import type { PdfPages } from "./pdf-page";
import { paperSizes } from "./pdf-page";
import type { TitleBlock } from "./print-input";
import { sayDate } from "./say-date";

/** Left and right margin of every page, in points. */
export const sideMargin = 42;

/** As much of a hash as two people compare by eye. */
export const shortHash = (hash: string): string => hash.slice(0, 8);

/** "Concertino · Edition № 4". */
export function nameEdition(block: TitleBlock): string {
  return `${block.title} · Edition № ${block.editionNumber}`;
}

/** Draws the head of page 1. Returns where the music may start. */
export function drawTitleBlock(pages: PdfPages, block: TitleBlock, partName: string): number {
  const { width } = paperSizes[pages.paper];
  const middle = width / 2;
  const inner = width - 2 * sideMargin;
  let y = 66;
  const title = { face: "serif-bold", size: 24, align: "center" } as const;
  pages.say("H1", () => {
    for (const line of pages.wrap(block.title, inner, title)) {
      pages.text(line, middle, y, title);
      y += 27;
    }
  });
  const movement = { face: "serif-italic", size: 13, align: "center" } as const;
  pages.say("P", () => {
    for (const line of pages.wrap(block.movement ?? "", inner, movement)) {
      pages.text(line, middle, y - 4, movement);
      y += 17;
    }
    y += 6;
    pages.text(partName, sideMargin, y, { face: "serif-bold", size: 11 });
    pages.text(block.composer ?? "", width - sideMargin, y, { face: "serif", size: 11, align: "right" });
  });
  let bottom = y;
  pages.say("P", () => {
    bottom = drawAgreement(pages, block, y + 10);
  });
  return bottom;
}

function drawAgreement(pages: PdfPages, block: TitleBlock, top: number): number {
  const { width } = paperSizes[pages.paper];
  pages.line(sideMargin, top, width - sideMargin, top, 0.8);
  const small = { face: "sans", size: 8 } as const;
  const edition = `Edition № ${block.editionNumber}, ${sayDate(block.frozenOn)}`;
  let y = top + 12;
  pages.text(edition, sideMargin, y, { face: "sans-bold", size: 8 });
  pages.text(shortHash(block.hash), width - sideMargin, y, { ...small, align: "right", grey: 0.35 });
  const players = block.players.map(
    ({ name, role, agreedOn }) => `${name}, ${role}, agreed ${sayDate(agreedOn)}`,
  );
  for (const line of pages.wrap(players.join("  ·  "), width - 2 * sideMargin, small)) {
    y += 11;
    pages.text(line, sideMargin, y, small);
  }
  pages.line(sideMargin, y + 6, width - sideMargin, y + 6, 0.4);
  return y + 20;
}

/** Draws the foot of a page: piece, edition, hash and page number. */
export function drawFooter(pages: PdfPages, block: TitleBlock, page: number, pageCount: number): void {
  const { width, height } = paperSizes[pages.paper];
  const y = height - 26;
  const small = { face: "sans", size: 7.5, grey: 0.25 } as const;
  pages.ornament(() => {
    pages.text(`${nameEdition(block)} · ${shortHash(block.hash)}`, sideMargin, y, small);
    pages.text(`${page} of ${pageCount}`, width - sideMargin, y, { ...small, align: "right" });
  });
}
