import PDFDocument from "pdfkit";
import type { PageWords } from "../pages/laid-out-edition";
import type { EngravedSystem } from "../screen-engraving";
import { drawPicture } from "./draw-picture";
import type { PageShape } from "./page-shape";
import type { PrintFonts } from "./print-fonts";
import { splitByFace } from "./text-runs";
import { type TextStyle, TypeSetter } from "./type-setter";

/** A PDF being drawn. Coordinates are points from the top left; text stands on its baseline. */
export class PdfPages {
  readonly document: PDFKit.PDFDocument;
  private readonly finished: Promise<Uint8Array>;
  private readonly type: TypeSetter;

  constructor(
    private readonly fonts: PrintFonts,
    readonly shape: PageShape,
    about: {
      readonly title: string;
      readonly author: string;
      readonly subject: string;
      /** ISO date of what is printed: the same edition prints to the same bytes on any day. */
      readonly on: string;
    },
  ) {
    this.type = new TypeSetter(fonts);
    this.document = new PDFDocument({
      autoFirstPage: false,
      lang: "en",
      displayTitle: true,
      pdfVersion: "1.7",
      // A reader that speaks finds headings, and pictures of music with their bars.
      tagged: true,
      info: {
        ...{ Title: about.title, Author: about.author, Subject: about.subject, Creator: "Colla Parte" },
        CreationDate: dayOf(about.on),
      },
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

  /** Words as they were laid out for the page. */
  words({ tag, items }: PageWords): void {
    const draw = () => {
      for (const item of items) {
        if (item.kind === "text") this.text(item.text, item.x, item.y, item.style);
        else this.line(item.x1, item.y, item.x2, item.y, item.thickness);
      }
    };
    if (tag === "ornament") this.ornament(draw);
    else this.say(tag, draw);
  }

  addPage(): void {
    const { width, height } = this.shape;
    this.document.addPage({ size: [width, height], margin: 0 });
  }

  /** Width of text, in points. */
  measure(text: string, style: TextStyle): number {
    return this.type.measure(text, style);
  }

  /** One line of text with its baseline at `y`; `x` is its left end, middle or right end, as it is aligned. */
  text(text: string, x: number, y: number, style: TextStyle): void {
    const width = this.measure(text, style);
    let at = style.align === "center" ? x - width / 2 : style.align === "right" ? x - width : x;
    const level = Math.round((style.grey ?? 0) * 255);
    for (const run of splitByFace(text, style.face, this.fonts.has)) {
      this.document.font(run.face).fontSize(style.size).fillColor([level, level, level]);
      this.document.text(run.text, at, y, { lineBreak: false, baseline: "alphabetic" });
      at += this.fonts.advance(run.face, run.text) * style.size;
    }
  }

  /** Words broken into lines no wider than `width`; a word that is wider stands alone. */
  wrap(text: string, width: number, style: TextStyle): string[] {
    return this.type.wrap(text, width, style);
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

/** Midnight of a day; the first that computers count where there is none. */
function dayOf(iso: string): Date {
  const time = Date.parse(`${iso.slice(0, 10)}T00:00:00Z`);
  return new Date(Number.isNaN(time) ? 0 : time);
}

function collect(document: PDFKit.PDFDocument): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  return new Promise((resolve, reject) => {
    document.on("data", (chunk: Buffer) => chunks.push(chunk));
    document.on("end", () => resolve(new Uint8Array(Buffer.concat(chunks))));
    document.on("error", reject);
  });
}
