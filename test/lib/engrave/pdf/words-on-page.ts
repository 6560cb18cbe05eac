import type { EditionPage, LaidOutEdition } from "@/lib/engrave/pages/laid-out-edition";
import { readPictureText } from "@/lib/engrave/pdf/picture-text";
import { openPrintFonts, type PrintFonts } from "@/lib/engrave/pdf/print-fonts";
import { TypeSetter } from "@/lib/engrave/pdf/type-setter";
import { readPicture } from "@/lib/engrave/picture/read-picture";
import { openEngraver } from "@/lib/engrave/toolkit";
import type { XmlElement } from "@/lib/musicxml/xml-tree";

/** Text as it stands on a page, in points from the top left. */
export interface PageText {
  readonly page: number;
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** In sizes of the text, what small letters take up: two lines may come as near as their ascenders. */
const rise = 0.55;
const fall = 0.05;
/** Sung words and what is counted with them have a line of their own; figures of fingerings stand at their notes. */
const apart = /\b(verse|syl|fing|tupletNum|label|labelAbbr)\b/;

/** Every text of the pages that could run into another, as wide as it is printed. */
export async function textsOnPages({ pages }: LaidOutEdition): Promise<PageText[]> {
  const { toolkit } = await openEngraver();
  const fonts = await openPrintFonts(toolkit);
  const reader = new PageReader(fonts);
  return pages.flatMap((page) => [...reader.frame(page), ...reader.music(page)]);
}

class PageReader {
  private readonly type: TypeSetter;

  constructor(private readonly fonts: PrintFonts) {
    this.type = new TypeSetter(fonts);
  }

  frame({ number, head, foot }: EditionPage): PageText[] {
    return [...head, ...foot].flatMap(({ items }) =>
      items.flatMap((item) => {
        if (item.kind !== "text" || item.text.trim() === "") return [];
        const { text, x, y, style } = item;
        const wide = this.type.measure(text, style);
        const left = style.align === "center" ? x - wide / 2 : style.align === "right" ? x - wide : x;
        return [boxOf(number, text, left, left + wide, y, style.size)];
      }),
    );
  }

  music({ number, systems }: EditionPage): PageText[] {
    return systems.flatMap(({ system, x, y, width }) => {
      const scale = width / system.width;
      const found: PageText[] = [];
      const visit = (node: XmlElement, at: { x: number; y: number }, type: Type): void => {
        const own = { bold: weightOf(node) ?? type.bold, italic: styleOf(node) ?? type.italic };
        const move = shiftOf(node);
        const inside = { x: at.x + move.x, y: at.y + move.y };
        if (apart.test(node.attributes.class ?? "")) return;
        if (node.name === "text") {
          found.push(
            ...this.textOf(node, own).map((run) =>
              boxOf(
                number,
                run.text,
                x + (at.x + run.left) * scale,
                x + (at.x + run.right) * scale,
                y + (at.y + run.y) * scale,
                run.size * scale,
              ),
            ),
          );
          return;
        }
        for (const inner of node.children) if (inner.kind === "element") visit(inner, inside, own);
      };
      visit(readPicture(system.svg), { x: 0, y: 0 }, { bold: false, italic: false });
      return found;
    });
  }

  /** The lines of one text; runs of one line belong together. */
  private textOf(node: XmlElement, { bold, italic }: Type) {
    const { has, advance } = this.fonts;
    const runs = readPictureText(
      node,
      { isBold: bold, isItalic: italic },
      has,
      (face, size, text) => advance(face, text) * size,
    );
    const lines = new Map<number, { text: string; left: number; right: number; y: number; size: number }>();
    for (const { text, face, size, x, y } of runs) {
      if (text.trim() === "") continue;
      const right = x + advance(face, text) * size;
      const line = lines.get(y);
      lines.set(
        y,
        line
          ? {
              ...line,
              text: `${line.text}${text}`,
              left: Math.min(line.left, x),
              right: Math.max(line.right, right),
              size: Math.max(line.size, size),
            }
          : { text, left: x, right, y, size },
      );
    }
    return [...lines.values()];
  }
}

interface Type {
  readonly bold: boolean;
  readonly italic: boolean;
}

const weightOf = ({ attributes }: XmlElement) =>
  attributes["font-weight"] ? attributes["font-weight"] === "bold" : undefined;
const styleOf = ({ attributes }: XmlElement) =>
  attributes["font-style"] ? attributes["font-style"] === "italic" : undefined;

function shiftOf({ attributes }: XmlElement): { x: number; y: number } {
  const found = /translate\(\s*(-?[\d.]+)[\s,]+(-?[\d.]+)\s*\)/.exec(attributes.transform ?? "");
  return { x: Number(found?.[1] ?? 0), y: Number(found?.[2] ?? 0) };
}

const boxOf = (
  page: number,
  text: string,
  left: number,
  right: number,
  y: number,
  size: number,
): PageText => ({
  ...{ page, text, left, right },
  ...{ top: y - size * rise, bottom: y + size * fall },
});

/** Texts that pass the paper's margins, as sentences. */
export function pastMargins(texts: readonly PageText[], pageWidth: number, side: number): string[] {
  return texts
    .filter(({ left, right }) => left < side - 1 || right > pageWidth - side + 1)
    .map(
      ({ page, text, left, right }) =>
        `page ${page}: "${text}" from ${left.toFixed(0)} to ${right.toFixed(0)}`,
    );
}

/** Pairs of texts that run into each other, as sentences. */
export function overlaps(texts: readonly PageText[]): string[] {
  const found: string[] = [];
  for (const [index, a] of texts.entries())
    for (const b of texts.slice(index + 1)) {
      const isOver =
        a.page === b.page &&
        a.left < b.right - 0.5 &&
        b.left < a.right - 0.5 &&
        a.top < b.bottom &&
        b.top < a.bottom;
      if (isOver)
        found.push(
          `page ${a.page}: "${a.text}" and "${b.text}" near ${a.left.toFixed(0)}, ${a.top.toFixed(0)}`,
        );
    }
  return found;
}
