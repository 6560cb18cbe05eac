import PDFDocument from "pdfkit";
import type { EngravedSystem } from "../screen-engraving";
import { drawPicture } from "./draw-picture";
import type { FaceName, PrintFonts } from "./print-fonts";
import type { Paper } from "./print-input";
import { splitByFace } from "./text-runs";

/** Sizes in points, 72 to the inch. */
export const paperSizes: Readonly<Record<Paper, { readonly width: number; readonly height: number }>> = {
  A4: { width: 595.28, height: 841.89 },
  Letter: { width: 612, height: 792 },
};

export interface TextStyle {
  readonly face: FaceName;
  readonly size: number;
  readonly align?: "left" | "center" | "right";
  /** Grey from 0, black, to 1; for second text only. */
  readonly grey?: number;
}

/** A PDF being drawn. Coordinates are points from the top left; text stands on its baseline. */
export class PdfPages {
  readonly document: PDFKit.PDFDocument;
  private readonly finished: Promise<Uint8Array>;

  constructor(
    private readonly fonts: PrintFonts,
    readonly paper: Paper,
    about: { readonly title: string; readonly author: string; readonly subject: string },
  ) {
    this.document = new PDFDocument({
      autoFirstPage: false,
      lang: "en",
      displayTitle: true,
      pdfVersion: "1.7",
      // A reader that speaks finds headings, and pictures of music with their bars.
      tagged: true,
      info: { Title: about.title, Author: about.author, Subject: about.subject, Creator: "Colla Parte" },
    });
    for (const [face, file] of Object.entries(fonts.files)) this.document.registerFont(face, file);
    this.finished = collect(this.document);
  }

  /** What is drawn inside is a heading or a paragraph to a reader that speaks. */
  say(kind: "H1" | "P", draw: () => void): void {
    this.document.addStructure(this.document.struct(kind, {}, draw));
  }

  /** What is drawn inside is a picture that stands for these words. */
  picture(alt: string, draw: () => void): void {
    this.document.addStructure(this.document.struct("Figure", { alt }, draw));
  }

  /** What is drawn inside belongs to the page and not to what it says. */
  ornament(draw: () => void): void {
    this.document.markContent("Artifact", { type: "Pagination" });
    draw();
    this.document.endMarkedContent();
  }

  addPage(): void {
    const { width, height } = paperSizes[this.paper];
    this.document.addPage({ size: [width, height], margin: 0 });
  }

  /** Width of text, in points. */
  measure(text: string, style: TextStyle): number {
    return splitByFace(text, style.face, this.fonts.has).reduce(
      (sum, run) => sum + this.document.font(run.face).fontSize(style.size).widthOfString(run.text),
      0,
    );
  }

  /** One line of text with its baseline at `y`; `x` is its left end, middle or right end, as it is aligned. */
  text(text: string, x: number, y: number, style: TextStyle): void {
    const width = this.measure(text, style);
    let at = style.align === "center" ? x - width / 2 : style.align === "right" ? x - width : x;
    const level = Math.round((style.grey ?? 0) * 255);
    for (const run of splitByFace(text, style.face, this.fonts.has)) {
      this.document.font(run.face).fontSize(style.size).fillColor([level, level, level]);
      this.document.text(run.text, at, y, { lineBreak: false, baseline: "alphabetic" });
      at += this.document.widthOfString(run.text);
    }
  }

  /** Words broken into lines no wider than `width`; a word that is wider stands alone. */
  wrap(text: string, width: number, style: TextStyle): string[] {
    const lines: string[] = [];
    let line = "";
    for (const word of text.split(/\s+/).filter((each) => each !== "")) {
      const longer = line === "" ? word : `${line} ${word}`;
      if (line !== "" && this.measure(longer, style) > width) {
        lines.push(line);
        line = word;
      } else line = longer;
    }
    return line === "" ? lines : [...lines, line];
  }

  line(x1: number, y1: number, x2: number, y2: number, thickness: number, grey = 0): void {
    const level = Math.round(grey * 255);
    this.document.save().lineWidth(thickness).strokeColor([level, level, level]);
    this.document.moveTo(x1, y1).lineTo(x2, y2).stroke().restore();
  }

  box(x: number, y: number, width: number, height: number, fill: number | null, thickness = 0): void {
    const { document } = this;
    document.save();
    if (fill !== null) {
      const level = Math.round(fill * 255);
      document.rect(x, y, width, height).fill([level, level, level]);
    }
    if (thickness > 0)
      document.lineWidth(thickness).strokeColor([0, 0, 0]).rect(x, y, width, height).stroke();
    document.restore();
  }

  /** An engraved system with its left upper corner at a place, drawn to a width. */
  system(system: EngravedSystem, x: number, y: number, width: number): void {
    drawPicture({ document: this.document, hasGlyph: this.fonts.has }, system.svg, x, y, width);
  }

  /** Ends the document. */
  finish(): Promise<Uint8Array> {
    this.document.end();
    return this.finished;
  }
}

function collect(document: PDFKit.PDFDocument): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  return new Promise((resolve, reject) => {
    document.on("data", (chunk: Buffer) => chunks.push(chunk));
    document.on("end", () => resolve(new Uint8Array(Buffer.concat(chunks))));
    document.on("error", reject);
  });
}
