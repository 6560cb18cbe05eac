import { child, childElements, childrenNamed, type XmlElement } from "@/lib/musicxml/xml-tree";
import { readPicture } from "../picture/read-picture";
import { readPictureText } from "./picture-text";
import type { FaceName } from "./print-fonts";

/** What a picture is drawn with: a page in points, and text in the faces of the page. */
export interface Canvas {
  readonly document: PDFKit.PDFDocument;
  readonly hasGlyph: (face: FaceName, codePoint: number) => boolean;
}

/**
 * Draws an inert picture of ours (see `EngravedSystem.svg`) in black, to a width, with its left upper corner at (x, y).
 * Notes and signs are set as text in the music font, which keeps the file small and the printer's outlines sharp.
 *
 * @throws Error if it is none of our pictures.
 */
export function drawPicture(canvas: Canvas, svg: string, x: number, y: number, width: number): void {
  const root = readPicture(svg);
  const units = Number(root.attributes.viewBox?.split(" ")[2]);
  if (!(units > 0)) throw new Error("Not one of our pictures");
  const { document } = canvas;
  document
    .save()
    .translate(x, y)
    .scale(width / units);
  document.fillColor("black").strokeColor("black");
  new PictureDrawer(canvas, readGlyphs(root)).draw(root);
  document.restore();
}

/** Outlines of the picture's own glyphs, by id. */
function readGlyphs(root: XmlElement): ReadonlyMap<string, string> {
  const glyphs = new Map<string, string>();
  for (const group of childrenNamed(child(root, "defs") ?? root, "g")) {
    const { id } = group.attributes;
    const outline = child(group, "path")?.attributes.d;
    if (id && outline) glyphs.set(id, outline);
  }
  return glyphs;
}

class PictureDrawer {
  constructor(
    private readonly canvas: Canvas,
    private readonly glyphs: ReadonlyMap<string, string>,
  ) {}

  draw(parent: XmlElement): void {
    for (const node of childElements(parent)) this.drawElement(node, parent);
  }

  private drawElement(node: XmlElement, parent: XmlElement): void {
    switch (node.name) {
      case "g":
        this.drawGroup(node, parent);
        break;
      case "use":
        this.drawGlyph(node.attributes);
        break;
      case "text":
        this.drawText(node, parent);
        break;
      case "defs":
        break;
      default:
        this.drawShape(node.name, node.attributes);
    }
  }

  /** A group hands its type style on to those inside. */
  private drawGroup(node: XmlElement, parent: XmlElement): void {
    for (const name of ["font-style", "font-weight"]) {
      const inherited = parent.attributes[name];
      if (inherited !== undefined) node.attributes[name] ??= inherited;
    }
    const { transform } = node.attributes;
    if (!transform) {
      this.draw(node);
      return;
    }
    const { document } = this.canvas;
    document.save();
    this.transform(transform);
    this.draw(node);
    document.restore();
  }

  /** What the engraver (verovio 6.3.0) writes of groups: shifts, scales, and the turning of a rolled chord's wave. */
  private transform(transform: string): void {
    const { document } = this.canvas;
    for (const [, name, inside = ""] of transform.matchAll(/(translate|scale|rotate)\(([^)]*)\)/g)) {
      const [first = 0, second, third = 0] = inside
        .trim()
        .split(/[\s,]+/)
        .map(Number);
      if (name === "translate") document.translate(first, second ?? 0);
      else if (name === "scale") document.scale(first, second ?? first);
      else document.rotate(first, { origin: [second ?? 0, third] });
    }
  }

  private drawGlyph({ href = "", transform }: Record<string, string>): void {
    const { document, hasGlyph } = this.canvas;
    const place = readPlace(transform);
    const id = href.slice(1);
    const codePoint = Number.parseInt(id.replace(/^s\d+-/, ""), 16);
    if (hasGlyph("music", codePoint)) {
      // Outlines are given in thousandths of the font's size.
      document.font("music", place.scale * 1000);
      document.text(String.fromCodePoint(codePoint), place.x, place.y, {
        lineBreak: false,
        baseline: "alphabetic",
      });
      return;
    }
    const outline = this.glyphs.get(id);
    if (!outline) return;
    document.save().translate(place.x, place.y).scale(place.scale, -place.scale);
    document.path(outline).fill();
    document.restore();
  }

  private drawText(node: XmlElement, parent: XmlElement): void {
    const { document, hasGlyph } = this.canvas;
    const measure = (face: FaceName, size: number, text: string) =>
      document.font(face, size).widthOfString(text);
    const type = {
      isBold: parent.attributes["font-weight"] === "bold",
      isItalic: parent.attributes["font-style"] === "italic",
    };
    for (const run of readPictureText(node, type, hasGlyph, measure)) {
      document.font(run.face, run.size);
      document.text(run.text, run.x, run.y, { lineBreak: false, baseline: "alphabetic" });
    }
  }

  private drawShape(name: string, attributes: Record<string, string>): void {
    const { document } = this.canvas;
    const stroke = Number(attributes["stroke-width"] ?? 1);
    document.lineWidth(stroke);
    document.lineCap((attributes["stroke-linecap"] as "butt") ?? "butt");
    document.lineJoin((attributes["stroke-linejoin"] as "miter") ?? "miter");
    const dashes = attributes["stroke-dasharray"]?.split(/[\s,]+/).map(Number);
    if (dashes?.every((dash) => dash > 0))
      document.dash(dashes[0] ?? 1, { space: dashes[1] ?? dashes[0] ?? 1 });
    if (!this.tracePath(name, attributes)) return;
    const isOpen =
      attributes.fill === "none" || attributes["fill-opacity"] === "0" || isStraight(attributes.d);
    if (isOpen) document.stroke();
    else document.fillAndStroke();
    if (dashes) document.undash();
  }

  private tracePath(name: string, attributes: Record<string, string>): boolean {
    const { document } = this.canvas;
    const number = (key: string) => Number(attributes[key] ?? 0);
    switch (name) {
      case "path":
        document.path(attributes.d ?? "");
        return true;
      case "rect":
        document.rect(number("x"), number("y"), number("width"), number("height"));
        return true;
      case "ellipse":
        document.ellipse(number("cx"), number("cy"), number("rx"), number("ry"));
        return true;
      case "circle":
        document.circle(number("cx"), number("cy"), number("r"));
        return true;
      case "line":
        document.moveTo(number("x1"), number("y1")).lineTo(number("x2"), number("y2"));
        return true;
      case "polygon":
      case "polyline":
        return this.tracePoints(attributes.points ?? "", name === "polygon");
      default:
        return false;
    }
  }

  private tracePoints(points: string, isClosed: boolean): boolean {
    const { document } = this.canvas;
    const numbers = points
      .trim()
      .split(/[\s,]+/)
      .map(Number);
    for (let index = 0; index + 1 < numbers.length; index += 2) {
      const [x, y] = [numbers[index] ?? 0, numbers[index + 1] ?? 0];
      if (index === 0) document.moveTo(x, y);
      else document.lineTo(x, y);
    }
    if (isClosed) document.closePath();
    return numbers.length >= 4;
  }
}

const isStraight = (path: string | undefined): boolean =>
  path !== undefined && /^M[^A-Za-z]*L[^A-Za-z]*$/.test(path);

/** Where a sign stands, and its size: a shift, then one scale for both directions. */
function readPlace(transform = ""): { x: number; y: number; scale: number } {
  const shift = /translate\(\s*(-?[\d.]+)[\s,]+(-?[\d.]+)\s*\)/.exec(transform);
  const scale = /scale\(\s*(-?[\d.]+)/.exec(transform);
  return { x: Number(shift?.[1] ?? 0), y: Number(shift?.[2] ?? 0), scale: Number(scale?.[1] ?? 1) };
}
