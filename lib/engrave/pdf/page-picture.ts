import { writeXmlElement } from "@/lib/musicxml/write-xml";
import { child, childElements, childrenNamed, element, type XmlElement } from "@/lib/musicxml/xml-tree";
import type { EditionPage, LaidOutEdition, PageItem, PlacedPicture } from "../pages/laid-out-edition";
import { readPicture } from "../picture/read-picture";
import { readPictureText } from "./picture-text";
import type { FaceName } from "./print-fonts";
import { splitByFace } from "./text-runs";
import type { TextStyle, TypeSetter } from "./type-setter";

/**
 * A page of an edition as one inert SVG: music, words and foot as on paper. Text is drawn as outlines, so that the picture needs no
 * font and looks the same wherever it is shown.
 */
export function drawPagePicture(
  type: TypeSetter,
  { width, height }: Pick<LaidOutEdition, "width" | "height">,
  page: EditionPage,
): string {
  const picture = new PagePicture(type);
  for (const { items } of page.head) for (const item of items) picture.addItem(item);
  for (const placed of page.systems) picture.addSystem(placed);
  for (const { items } of page.foot) for (const item of items) picture.addItem(item);
  return picture.write(width, height);
}

class PagePicture {
  private readonly glyphs = new Map<string, string>();
  private readonly out: string[] = [];

  constructor(private readonly type: TypeSetter) {}

  addItem(item: PageItem): void {
    if (item.kind === "rule") {
      const { x1, x2, y, thickness } = item;
      this.out.push(
        `<path stroke="currentColor" stroke-width="${thickness}" d="M${short(x1)} ${short(y)}H${short(x2)}"/>`,
      );
      return;
    }
    const { text, x, y, style } = item;
    const width = style.align && style.align !== "left" ? this.type.measure(text, style) : 0;
    const left = style.align === "center" ? x - width / 2 : style.align === "right" ? x - width : x;
    this.addText(text, left, y, style);
  }

  private addText(text: string, x: number, y: number, { face, size, grey = 0 }: TextStyle): void {
    let at = x;
    this.out.push(grey > 0 ? `<g opacity="${1 - grey}">` : "<g>");
    for (const run of splitByFace(text, face, this.type.fonts.has)) {
      for (const use of this.outline(run.face, run.text, at, y, size)) this.out.push(writeXmlElement(use));
      at += this.type.fonts.advance(run.face, run.text) * size;
    }
    this.out.push("</g>");
  }

  /** A text as references to the outlines of its signs. */
  private outline(face: FaceName, text: string, x: number, y: number, size: number): XmlElement[] {
    return this.type.fonts.outline(face, text).flatMap((glyph) => {
      if (glyph.path === "") return [];
      this.glyphs.set(glyph.id, `d="${glyph.path}"`);
      const scale = size / glyph.unitsPerEm;
      const place = `translate(${short(x + glyph.x * size)} ${short(y - glyph.y * size)})`;
      return element("use", {
        href: `#${glyph.id}`,
        transform: `${place} scale(${precise(scale)} ${precise(-scale)})`,
      });
    });
  }

  addSystem({ x, y, width, system }: PlacedPicture): void {
    const root = readPicture(system.svg);
    this.takeGlyphs(root);
    this.prepare(root, { bold: false, italic: false });
    const scale = precise(width / system.width);
    this.out.push(`<g transform="translate(${short(x)} ${short(y)}) scale(${scale})">`);
    for (const node of childElements(root)) if (node.name !== "defs") this.out.push(writeXmlElement(node));
    this.out.push("</g>");
  }

  /** Outlines of signs are kept once for the page, whatever system they come from. */
  private takeGlyphs(root: XmlElement): void {
    for (const group of childrenNamed(child(root, "defs") ?? root, "g")) {
      const { id } = group.attributes;
      const d = child(group, "path")?.attributes.d;
      // They are drawn upward, as in a font.
      if (id && d) this.glyphs.set(signId(id), `transform="scale(1 -1)" d="${d}"`);
    }
  }

  /** Text becomes outlines; references point to the page's signs; ids and classes go. */
  private prepare(node: XmlElement, around: { bold: boolean; italic: boolean }): void {
    const { attributes } = node;
    const type = {
      bold: attributes["font-weight"] ? attributes["font-weight"] === "bold" : around.bold,
      italic: attributes["font-style"] ? attributes["font-style"] === "italic" : around.italic,
    };
    for (const key of ["id", "class", "font-weight", "font-style"]) delete attributes[key];
    if (node.name === "use" && attributes.href) attributes.href = `#${signId(attributes.href.slice(1))}`;
    node.children = node.children.flatMap((inner) => {
      if (inner.kind !== "element") return [];
      if (inner.name === "text") return this.drawText(inner, type);
      this.prepare(inner, type);
      return inner;
    });
  }

  private drawText(node: XmlElement, { bold, italic }: { bold: boolean; italic: boolean }): XmlElement[] {
    const { fonts } = this.type;
    const measure = (face: FaceName, size: number, text: string) => fonts.advance(face, text) * size;
    const runs = readPictureText(node, { isBold: bold, isItalic: italic }, fonts.has, measure);
    const uses = runs.flatMap(({ face, text, x, y, size }) => this.outline(face, text, x, y, size));
    return uses.length > 0 ? [element("g", { stroke: "none" }, ...uses)] : [];
  }

  write(width: number, height: number): string {
    const signs = [...this.glyphs].map(([id, outline]) => `<path id="${id}" ${outline}/>`).join("");
    return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}"><rect width="${width}" height="${height}" fill="#fff"/><defs>${signs}</defs><g color="#000" fill="currentColor">${this.out.join("")}</g></svg>`;
  }
}

/** "E0A4" of any system's "s3-E0A4". */
const signId = (id: string): string => id.replace(/^s\d+-/, "m-");
const short = (value: number): number => Math.round(value * 100) / 100;
const precise = (value: number): number => Number(value.toPrecision(6));
