import type { SheetStrip, StripSpan } from "./cut-sheet-input";
import type { PdfPages } from "./pdf-page";
import { sayClock } from "./say-date";

/** Places on the strip, in points below its top. */
const rows = { letters: 0, words: 25, band: 38, bandHeight: 30, axis: 68, height: 84 } as const;
const inset = 8;

export const stripHeight = rows.height;

/** Draws the piece as a line of time: where the solo plays, where it rests, what is cut, letters and minutes. */
export function drawStrip(
  pages: PdfPages,
  strip: SheetStrip,
  left: number,
  top: number,
  width: number,
): void {
  if (!(strip.totalSeconds > 0)) return;
  const drawing = new StripDrawing(pages, strip, left, top, width);
  drawing.drawBand();
  drawing.drawCuts();
  drawing.drawLetters();
  drawing.drawMinutes();
}

class StripDrawing {
  constructor(
    private readonly pages: PdfPages,
    private readonly strip: SheetStrip,
    private readonly left: number,
    private readonly top: number,
    private readonly width: number,
  ) {}

  private x(seconds: number): number {
    return (
      this.left +
      (Math.min(Math.max(seconds, 0), this.strip.totalSeconds) / this.strip.totalSeconds) * this.width
    );
  }

  private ends(span: StripSpan): { from: number; to: number; wide: number } {
    const [from, to] = [this.x(span.startSeconds), this.x(span.endSeconds)];
    return { from, to, wide: to - from };
  }

  drawBand(): void {
    const { pages, top } = this;
    const y = top + rows.band;
    pages.line(this.left, y, this.left + this.width, y, 0.5, 0.75);
    pages.line(this.left, y + rows.bandHeight, this.left + this.width, y + rows.bandHeight, 0.5, 0.4);
    for (const span of this.strip.tuttis) this.drawTutti(span);
    for (const span of this.strip.soloPlays) {
      const { from, wide } = this.ends(span);
      pages.box(from, y + inset, Math.max(0.8, wide), rows.bandHeight - 2 * inset, 0.08);
      const label = `plays ${sayClock(span.endSeconds - span.startSeconds)}`;
      const style = { face: "sans-bold", size: 7, align: "center", grey: 1 } as const;
      const half = pages.measure(label, style) / 2 + 5;
      const middle = from + wide / 2;
      const isCovered = this.strip.cuts.some((cut) => {
        const ends = this.ends(cut);
        return ends.from < middle + half && ends.to > middle - half;
      });
      if (2 * half < wide && !isCovered) pages.text(label, middle, y + 17.5, style);
    }
  }

  /** A bar rest of many bars: a line between two ends, with its number over it and its length under it. */
  private drawTutti(span: StripSpan & { readonly barCount: number }): void {
    const { pages, top } = this;
    const { from, to, wide } = this.ends(span);
    const y = top + rows.band;
    const middle = y + rows.bandHeight / 2;
    pages.box(from, y, wide, rows.bandHeight, 0.93);
    if (wide > 4) pages.line(from + 0.8, middle, to - 0.8, middle, 2.2);
    for (const x of [from + 0.6, to - 0.6]) pages.line(x, middle - 4.5, x, middle + 4.5, 1.1);
    const style = { face: "serif-bold", size: 8, align: "center" } as const;
    const isCut = this.strip.cuts.some(
      (cut) => cut.startSeconds < span.endSeconds && cut.endSeconds > span.startSeconds,
    );
    if (isCut || wide < 11) return;
    pages.text(`${span.barCount}`, from + wide / 2, y + 9, style);
    const clock = sayClock(span.endSeconds - span.startSeconds);
    if (wide > 24)
      pages.text(clock, from + wide / 2, y + rows.bandHeight - 2.5, { ...style, face: "sans", size: 7 });
  }

  drawCuts(): void {
    const { pages, top } = this;
    const y = top + rows.band;
    let free = this.left - 40;
    for (const [index, cut] of this.strip.cuts.entries()) {
      const { from, to, wide } = this.ends(cut);
      pages.box(from, y - 2, wide, rows.bandHeight + 4, 0.9);
      this.hatch(from, y - 2, wide, rows.bandHeight + 4);
      for (const x of [from, to]) pages.line(x, y - 2, x, y + rows.bandHeight + 2, 1.1);
      this.drawBridge(from, to, y - 2);
      this.drawNumber(cut.number, from + wide / 2, y + rows.bandHeight / 2);
      const style = { face: "serif-bold-italic", size: 9 } as const;
      if (from - 20 > free) pages.text("Vi–", from - 1, top + rows.words + 9, { ...style, align: "right" });
      const next = this.strip.cuts[index + 1];
      if (!next || this.x(next.startSeconds) > to + 22)
        pages.text("–de", to + 1, top + rows.words + 9, style);
      free = to + 20;
    }
  }

  private hatch(x: number, y: number, width: number, height: number): void {
    const { document } = this.pages;
    document.save().rect(x, y, width, height).clip();
    for (let at = x - height; at < x + width; at += 5)
      this.pages.line(at, y + height, at + height, y, 0.4, 0.6);
    document.restore();
  }

  private drawBridge(from: number, to: number, y: number): void {
    const { document } = this.pages;
    const rise = Math.min(14, 5 + (to - from) / 4);
    document.save().lineWidth(1.6).strokeColor("black");
    document
      .moveTo(from, y)
      .bezierCurveTo(from + 2, y - rise, to - 2, y - rise, to, y)
      .stroke()
      .restore();
  }

  private drawNumber(number: number, x: number, y: number): void {
    this.pages.box(x - 6.5, y - 6.5, 13, 13, 0);
    this.pages.text(`${number}`, x, y + 3, { face: "sans-bold", size: 8.5, align: "center", grey: 1 });
  }

  /** A letter that would touch the one before it is left out, and marked only by its line. */
  drawLetters(): void {
    let free = Number.NEGATIVE_INFINITY;
    for (const { text, seconds } of this.strip.letters) {
      const x = this.x(seconds);
      const wide = drawLetterBox(this.pages, text, x, this.top + rows.letters + 10, 8, x < free);
      if (wide > 0) free = x + wide + 2;
    }
  }

  drawMinutes(): void {
    const { pages, top } = this;
    const perMinute = this.width / (this.strip.totalSeconds / 60);
    const step = [1, 2, 5, 10, 20].find((minutes) => minutes * perMinute > 30) ?? 30;
    const style = { face: "sans", size: 7.5, grey: 0.25 } as const;
    const end = sayClock(this.strip.totalSeconds);
    const endsAt = this.left + this.width;
    for (let minute = 0; minute * 60 < this.strip.totalSeconds; minute += step) {
      const x = this.x(minute * 60);
      pages.line(x, top + rows.axis, x, top + rows.axis + 3, 0.5, 0.4);
      if (x + 24 < endsAt - pages.measure(end, style))
        pages.text(`${minute}:00`, x + 2, top + rows.axis + 10, style);
    }
    pages.text(end, endsAt, top + rows.axis + 10, { ...style, align: "right" });
  }
}

/**
 * A rehearsal letter in its box, with the baseline at `y`.
 *
 * @param isHidden only measures.
 * @returns the width of the box; 0 when hidden.
 */
export function drawLetterBox(
  pages: PdfPages,
  text: string,
  x: number,
  y: number,
  size: number,
  isHidden = false,
): number {
  if (isHidden) return 0;
  const style = { face: "serif-bold", size, align: "center" } as const;
  const wide = Math.max(size * 1.55, pages.measure(text, style) + size * 0.8);
  pages.box(x, y - size * 1.05, wide, size * 1.5, null, 0.8);
  pages.text(text, x + wide / 2, y, style);
  return wide;
}
