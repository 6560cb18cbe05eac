import { shortHash } from "@/lib/edition/short-hash";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import type { Score } from "@/lib/score/score";
import type { Engraver } from "../toolkit";
import type { CutSheetInput, SheetCut } from "./cut-sheet-input";
import { describeJoinPlace, describeWhatGoes, type SheetWord } from "./describe-cut";
import { drawLetterBox, drawStrip, stripHeight } from "./draw-strip";
import { readEditionSource } from "./edition-music";
import { type EngravedJoin, engraveJoins } from "./engrave-joins";
import { fitSections } from "./fit-sections";
import { pageShapes } from "./page-shape";
import { PdfPages } from "./pdf-page";
import { openPrintFonts } from "./print-fonts";
import { sayClock, sayDate } from "./say-date";
import { insideLine, nameEdition } from "./title-block";

const margin = 45;
/** Height of a staff on the sheet, in points: 5 mm. */
const staffPoints = 14.2;
const agreementHeight = 96;

/** Draws a cut sheet; to be run in the thread that engraves. See `printCutSheet`. */
export async function drawCutSheet(toolkit: Engraver["toolkit"], input: CutSheetInput): Promise<Uint8Array> {
  const fonts = await openPrintFonts(toolkit);
  const source = readEditionSource(input.sourceMusicXml);
  const { score } = scoreFromTree(source);
  const inner = pageShapes[input.paper].width - 2 * margin;
  const joins = engraveJoins(toolkit, source, input, { systemUnits: (inner / staffPoints) * 8 });
  const { titleBlock } = input;
  const pages = new PdfPages(fonts, pageShapes[input.paper], {
    title: `Cut sheet · ${nameEdition(titleBlock)}`,
    author: titleBlock.composer ?? "",
    subject: "Cut sheet",
    on: input.titleBlock.frozenOn,
  });
  pages.addPage();
  new CutSheet(pages, input, score).draw(joins);
  return pages.finish();
}

class CutSheet {
  private readonly width: number;
  private readonly height: number;
  private readonly right: number;

  constructor(
    private readonly pages: PdfPages,
    private readonly input: CutSheetInput,
    private readonly score: Score,
  ) {
    const { width, height } = pageShapes[input.paper];
    this.width = width - 2 * margin;
    this.height = height;
    this.right = width - margin;
  }

  draw(joins: readonly EngravedJoin[]): void {
    const { pages, input } = this;
    let y = 0;
    pages.say("P", () => {
      y = this.drawSummary(this.drawHead());
    });
    const strip = "The piece as a line of time, with its cuts";
    pages.picture(strip, () => drawStrip(pages, input.strip, margin, y + 10, this.width));
    const top = y + 10 + stripHeight + 4;
    this.drawCuts(joins, top, this.height - agreementHeight - margin + 20);
    pages.say("P", () => this.drawAgreement(this.height - agreementHeight));
  }

  private drawHead(): number {
    const { pages, input } = this;
    const { titleBlock } = input;
    const middle = margin + this.width / 2;
    this.drawTitle(titleBlock.title, middle);
    if (titleBlock.movement)
      pages.text(titleBlock.movement, middle, 86, { face: "serif-italic", size: 11.5, align: "center" });
    const small = { face: "sans", size: 9.5 } as const;
    pages.text("Cut sheet", margin, 74, { face: "sans-bold", size: 9.5 });
    pages.text(`solo ${insideLine(titleBlock.soloInstrument ?? "part")} and piano`, margin, 87, small);
    pages.text(titleBlock.composer ?? "", this.right, 74, { ...small, align: "right" });
    pages.text(`${input.barCount} bars, ${input.playedBarCount} played`, this.right, 87, {
      ...small,
      align: "right",
    });
    pages.line(margin, 99, this.right, 99, 2.2);
    return 99;
  }

  /** Between the words at both sides: smaller when it is long, on two lines when it is very long. */
  private drawTitle(title: string, middle: number): void {
    const { pages } = this;
    const style = { face: "serif-bold", size: 25, align: "center" } as const;
    const room = this.width - 2 * 130;
    const size = Math.min(25, (25 * room) / Math.max(1, pages.measure(title, style)));
    if (size >= 13) {
      pages.text(title, middle, 66, { ...style, size });
      return;
    }
    const small = { ...style, size: 13 };
    const lines = pages.wrap(title, room, small).slice(0, 2);
    for (const [index, line] of lines.entries()) pages.text(line, middle, 54 + index * 15, small);
  }

  private drawSummary(top: number): number {
    const { pages } = this;
    const cells = this.readCells();
    const wide = this.width / cells.length;
    const bottom = top + 50;
    for (const [index, cell] of cells.entries()) {
      const x = margin + index * wide + (index === 0 ? 0 : 9);
      if (index > 0) pages.line(margin + index * wide, top + 1, margin + index * wide, bottom, 0.5, 0.6);
      pages.text(cell.label, x, top + 16, { face: "sans", size: 8, grey: 0.3 });
      const big = { face: "serif-bold", size: cell.size } as const;
      const lines = pages.wrap(cell.text, wide - 14, big).slice(0, 2);
      for (const [at, line] of lines.entries()) pages.text(line, x, top + 31 + at * 13, big);
      const after = x + pages.measure(lines[0] ?? "", big) + 5;
      if (cell.extra) pages.text(cell.extra, after, top + 31, { face: "serif", size: 9.5 });
    }
    pages.line(margin, bottom, this.right, bottom, 0.8);
    return bottom;
  }

  private readCells(): { label: string; text: string; size: number; extra?: string }[] {
    const { titleBlock, occasion, runningSeconds, limitSeconds } = this.input;
    const running = { label: "Running time", text: sayClock(runningSeconds), size: 14 };
    const cells = [
      { label: "Edition", text: `№ ${titleBlock.editionNumber}`, size: 14 },
      limitSeconds === null ? running : { ...running, extra: `of ${sayClock(limitSeconds)}` },
    ];
    if (!occasion) return [...cells, { label: "Agreed", text: sayDate(titleBlock.frozenOn), size: 11.5 }];
    cells.push({ label: "For", text: occasion.name, size: 11.5 });
    const on = occasion.on ? sayDate(occasion.on) : "";
    if (occasion.round || on) cells.push({ label: occasion.round ?? "On", text: on, size: 11.5 });
    return cells;
  }

  private drawCuts(joins: readonly EngravedJoin[], top: number, bottom: number): void {
    const heights = this.input.cuts.map((_, index) => {
      const system = this.joinOf(joins, index)?.system;
      return system ? (system.height * this.width) / system.width : 0;
    });
    const plan = fitSections(heights, bottom - top);
    let y = top;
    for (const [index, cut] of this.input.cuts.entries()) {
      const join = this.joinOf(joins, index);
      const lineTop = y;
      this.pages.say("P", () => {
        this.pages.line(margin, lineTop, this.right, lineTop, 0.5, 0.75);
        const baseline = lineTop + plan.lineHeight * 0.68;
        this.drawCutLine(cut, join, baseline, Math.min(14, plan.lineHeight * 0.5));
      });
      y += plan.lineHeight;
      const height = plan.pictureHeights[index] ?? 0;
      if (!join || height === 0) continue;
      const pictureTop = y;
      this.pages.picture(`What meets at cut ${cut.number}`, () => this.drawJoin(join, pictureTop, height));
      y += height + plan.space;
    }
  }

  /** The join at the start of a cut. Cuts that touch have one together, which is shown at the first. */
  private joinOf(joins: readonly EngravedJoin[], index: number): EngravedJoin | null {
    const from = this.input.cuts[index]?.span.from;
    if (!from) return null;
    const before = from.offset.num === 0 ? from.barIndex - 1 : from.barIndex;
    return joins.find(({ join }) => (join.beforeBarIndex ?? -1) === before) ?? null;
  }

  private drawCutLine(cut: SheetCut, join: EngravedJoin | null, y: number, size: number): void {
    const { pages } = this;
    const side = size * 1.35;
    pages.box(margin, y - side * 0.78, side, side, 0);
    pages.text(`${cut.number}`, margin + side / 2, y - side * 0.78 + side * 0.7, {
      face: "sans-bold",
      size: size * 0.8,
      align: "center",
      grey: 1,
    });
    if (join) this.drawWords(describeJoinPlace(this.score, join.join), margin + side + 8, y, size);
    const what = describeWhatGoes(this.score, cut);
    const small = Math.min(size, 9.5);
    this.drawWords(what, this.right - this.measureWords(what, small), y, small);
  }

  private measureWords(words: readonly SheetWord[], size: number): number {
    return words.reduce(
      (sum, word) =>
        sum + this.pages.measure(word.text, { face: "serif", size }) + (word.kind === "letter" ? size : 0),
      0,
    );
  }

  private drawWords(words: readonly SheetWord[], x: number, y: number, size: number): void {
    let at = x;
    for (const word of words) {
      if (word.kind === "letter") {
        at += drawLetterBox(this.pages, word.text, at, y, size * 0.85);
        continue;
      }
      const style = { face: word.kind === "cut-word" ? "serif-bold-italic" : "serif", size } as const;
      this.pages.text(word.text, at, y, style);
      at += this.pages.measure(word.text, style);
    }
  }

  /** The picture keeps its proportions: one that had to be made lower is narrower too. */
  private drawJoin({ join, system, x }: EngravedJoin, y: number, height: number): void {
    const scale = height / system.height;
    this.pages.system(system, margin, y, system.width * scale);
    const [first] = system.bars;
    if (x === null || !first) return;
    const at = margin + x * scale;
    const top = y + 3;
    this.pages.line(at, top, at, y + first.bottom * scale + 6, 1.8);
    const number = { face: "serif-italic", size: 7 } as const;
    this.pages.text(join.sentenceParts.afterLabel ?? "", at + 3, top + 6, number);
    this.pages.text("Vi–de", at, top - 2, { face: "serif-bold-italic", size: 11, align: "center" });
  }

  private drawAgreement(y: number): void {
    const { pages, input } = this;
    const players = input.titleBlock.players.slice(0, 3);
    const gap = 22;
    const wide = (this.width - gap * (Math.max(2, players.length) - 1)) / Math.max(2, players.length);
    for (const [index, player] of players.entries()) {
      const x = margin + index * (wide + gap);
      pages.line(x, y, x + wide, y, 0.8);
      const bold = { face: "sans-bold", size: 9.5 } as const;
      pages.text(`${player.name},`, x, y + 14, bold);
      pages.text(` ${player.role}`, x + pages.measure(`${player.name},`, bold), y + 14, {
        face: "sans",
        size: 9.5,
      });
      pages.text(`agreed ${sayDate(player.agreedOn)}`, x, y + 28, { face: "sans", size: 9.5 });
    }
    const foot = this.height - 40;
    const small = { face: "sans", size: 8, grey: 0.3 } as const;
    pages.text("If the number differs from your part’s, one of you has an older copy.", margin, foot, small);
    const sign = `№ ${input.titleBlock.editionNumber} · ${shortHash(input.titleBlock.hash)}`;
    pages.text(sign, this.right, foot, { face: "serif-bold", size: 10, align: "right" });
  }
}
