import { shortHash } from "@/lib/edition/short-hash";
import { sayClock } from "@/lib/score/say-clock";
import type { Engraver } from "../toolkit";
import type { ChangeSheetInput, ChangeSheetSection, ChangeSheetSide } from "./change-sheet-input";
import { drawStrip, stripHeight } from "./draw-strip";
import { pageShapes } from "./page-shape";
import { PdfPages } from "./pdf-page";
import { openPrintFonts } from "./print-fonts";
import { insideLine, nameEdition } from "./title-block";

const margin = 45;
/** Room for the foot. */
const foot = 58;
/** Sizes of the sentences, in points: the largest that lets all of them stand on the page. */
const sizes = [11, 10, 9, 8, 7.2];
const leading = 1.36;
const columnGap = 22;

/** Draws what changed from one edition to another; to be run in the thread that engraves. See `printChangeSheet`. */
export async function drawChangeSheet(
  toolkit: Engraver["toolkit"],
  input: ChangeSheetInput,
): Promise<Uint8Array> {
  const fonts = await openPrintFonts(toolkit);
  const { titleBlock } = input;
  const pages = new PdfPages(fonts, pageShapes[input.paper], {
    title: `What changed · ${nameEdition(titleBlock)}`,
    author: titleBlock.composer ?? "",
    subject: "What changed from the edition before",
    on: titleBlock.frozenOn,
  });
  pages.addPage();
  new ChangeSheet(pages, input).draw();
  return pages.finish();
}

/** A line of the list as it stands in its column. */
interface ListLine {
  readonly kind: "title" | "sentence";
  readonly text: string;
  readonly right: string;
  /** The first line of a sentence; the others are indented. */
  readonly isFirst: boolean;
}

class ChangeSheet {
  private readonly width: number;
  private readonly right: number;
  private readonly bottom: number;

  constructor(
    private readonly pages: PdfPages,
    private readonly input: ChangeSheetInput,
  ) {
    const { width, height } = pages.shape;
    this.width = width - 2 * margin;
    this.right = width - margin;
    this.bottom = height - foot;
  }

  draw(): void {
    let y = this.drawHead();
    const { sides } = this.input;
    if (sides) {
      y = this.drawSide(sides.earlier, y + 18, null);
      y = this.drawSide(sides.later, y + 14, sides.later.runningSeconds - sides.earlier.runningSeconds);
    }
    this.drawList(y + 16);
    this.drawFoot();
  }

  private drawHead(): number {
    const { pages, input } = this;
    const { titleBlock } = input;
    const small = { face: "sans", size: 9.5 } as const;
    const title = { face: "serif-bold", size: 22 } as const;
    const size = Math.max(
      12,
      Math.min(22, (22 * this.width) / Math.max(1, pages.measure(titleBlock.title, title))),
    );
    pages.say("H1", () => pages.text(titleBlock.title, margin, 62, { ...title, size }));
    pages.say("P", () => {
      const about = [titleBlock.movement, titleBlock.composer].filter(Boolean).join(" · ");
      pages.text(about, margin, 78, { face: "serif-italic", size: 11.5 });
      pages.text(`What changed, to № ${titleBlock.editionNumber}`, margin, 96, {
        face: "sans-bold",
        size: 11,
      });
      const players = `solo ${insideLine(titleBlock.soloInstrument ?? "part")} and piano`;
      pages.text(`${players} · ${input.barCount} bars`, this.right, 96, { ...small, align: "right" });
      pages.line(margin, 104, this.right, 104, 2.2);
    });
    return 104;
  }

  private drawSide(side: ChangeSheetSide, y: number, longer: number | null): number {
    const { pages } = this;
    pages.say("P", () => {
      const bold = { face: "serif-bold", size: 12 } as const;
      pages.text(side.name, margin, y, bold);
      const clock = `${sayClock(side.runningSeconds)}${longer === null ? "" : `, ${sayLonger(longer)}`}`;
      pages.text(`${clock} · ${side.playedBarCount} bars played`, this.right, y, {
        face: "sans",
        size: 9.5,
        align: "right",
      });
    });
    pages.picture(`${side.name} as a line of time, with its cuts`, () =>
      drawStrip(pages, side.strip, margin, y + 5, this.width),
    );
    return y + 5 + stripHeight;
  }

  private drawList(top: number): void {
    const { pages, input } = this;
    const sections = input.sections.filter(({ lines }) => lines.length > 0);
    pages.line(margin, top, this.right, top, 0.8);
    if (sections.length === 0) {
      const nothing = "Nothing that is played changed.";
      pages.say("P", () => pages.text(nothing, margin, top + 20, { face: "serif", size: 11 }));
      return;
    }
    const room = this.bottom - top - 10;
    for (const size of sizes) {
      for (const columns of size > 9 ? [1] : [1, 2]) {
        const lines = this.breakSections(sections, size, this.columnWidth(columns));
        const perColumn = Math.floor(room / (size * leading));
        const isLast = size === sizes.at(-1) && columns === 2;
        if (lines.length > perColumn * columns && !isLast) continue;
        this.drawLines(shorten(lines, perColumn * columns), top + 10, size, columns);
        return;
      }
    }
  }

  private columnWidth(columns: number): number {
    return (this.width - columnGap * (columns - 1)) / columns;
  }

  private breakSections(sections: readonly ChangeSheetSection[], size: number, width: number): ListLine[] {
    const style = { face: "serif", size } as const;
    return sections.flatMap(({ title, lines }): ListLine[] => [
      { kind: "title", text: title, right: `${lines.length}`, isFirst: true },
      ...lines.flatMap(({ sentence, secondsLonger }) =>
        this.pages.wrap(sentence, width - size * 6, style).map(
          (text, index): ListLine => ({
            kind: "sentence",
            text,
            right: index === 0 && Math.round(secondsLonger) !== 0 ? saySigned(secondsLonger) : "",
            isFirst: index === 0,
          }),
        ),
      ),
    ]);
  }

  /** Columns of nearly the same length. */
  private drawLines(lines: readonly ListLine[], top: number, size: number, columns: number): void {
    const width = this.columnWidth(columns);
    const perColumn = Math.ceil(lines.length / columns);
    for (let column = 0; column < columns; column += 1) {
      const left = margin + column * (width + columnGap);
      for (const [index, line] of lines.slice(column * perColumn, (column + 1) * perColumn).entries()) {
        const y = top + (index + 1) * size * leading;
        this.pages.say("P", () => this.drawLine(line, left, y, size, width));
      }
    }
  }

  private drawLine(
    { kind, text, right, isFirst }: ListLine,
    x: number,
    y: number,
    size: number,
    width: number,
  ) {
    const { pages } = this;
    if (kind === "title") {
      pages.text(text, x, y, { face: "sans-bold", size: size * 0.9 });
      pages.line(x, y + size * 0.3, x + width, y + size * 0.3, 0.4, 0.5);
    } else pages.text(text, x + (isFirst ? size * 0.6 : size * 1.4), y, { face: "serif", size });
    pages.text(right, x + width, y, { face: "sans", size: size * 0.85, align: "right", grey: 0.15 });
  }

  private drawFoot(): void {
    const { pages, input } = this;
    const y = pages.shape.height - 40;
    const small = { face: "sans", size: 8, grey: 0.3 } as const;
    pages.say("P", () => {
      pages.line(margin, y - 12, this.right, y - 12, 0.5, 0.5);
      pages.text("Bar numbers are those of the printed music, as in your part.", margin, y, small);
      const sign = `№ ${input.titleBlock.editionNumber} · ${shortHash(input.titleBlock.hash)}`;
      pages.text(sign, this.right, y, { face: "serif-bold", size: 10, align: "right" });
    });
  }
}

/** What finds no room is counted; the editions screen has all of it. */
function shorten(lines: readonly ListLine[], room: number): ListLine[] {
  if (lines.length <= room) return [...lines];
  const kept = lines.slice(0, Math.max(1, room - 1));
  const left = lines.slice(kept.length).filter(({ kind, isFirst }) => kind === "sentence" && isFirst).length;
  return [
    ...kept,
    { kind: "sentence", text: `and ${left} more, on the screen of editions`, right: "", isFirst: true },
  ];
}

const saySigned = (longer: number): string => `${longer < 0 ? "−" : "+"}${sayClock(Math.abs(longer))}`;

function sayLonger(longer: number): string {
  if (Math.round(longer) === 0) return "as long as before";
  return `${sayClock(Math.abs(longer))} ${longer < 0 ? "shorter" : "longer"}`;
}
