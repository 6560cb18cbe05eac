import { type Glyph, placeGlyph, scaleGlyph } from "./place-glyph";

const svgSpace = "http://www.w3.org/2000/svg";
const number = String.raw`\s*(-?[\d.]+)\s*`;
/** How the engraver (verovio 6.3.0) places a glyph, and how it turns the font's y axis. */
const placement = new RegExp(`^translate\\(${number},${number}\\) scale\\(${number},${number}\\)$`);
const upsideDown = /^scale\(1,\s*-1\)$/;

/**
 * Draws every glyph of a system as an outline at its place, instead of as a use of a definition with a transform of its
 * own. Browsers keep each transformed element apart when they put a page together: with a thousand notes near the view,
 * every change of the page took them a tenth of a second. What it does not know it leaves as it is.
 */
export function placeGlyphs(drawing: SVGSVGElement): void {
  const known = new Map<string, Glyph | null>();
  for (const use of drawing.querySelectorAll("use")) {
    const [, x, y, scaleX, scaleY] = placement.exec(use.getAttribute("transform") ?? "") ?? [];
    const name = use.getAttribute("href") ?? use.getAttribute("xlink:href") ?? "";
    if (x === undefined || !name.startsWith("#")) continue;
    const key = `${name} ${scaleX} ${scaleY}`;
    if (!known.has(key)) known.set(key, readGlyph(drawing, name.slice(1), Number(scaleX), Number(scaleY)));
    const glyph = known.get(key);
    if (!glyph) continue;
    const outline = document.createElementNS(svgSpace, "path");
    for (const { name: attribute, value } of use.attributes) {
      if (!/^(transform|x|y|width|height|(xlink:)?href)$/.test(attribute))
        outline.setAttribute(attribute, value);
    }
    outline.setAttribute("d", placeGlyph(glyph, Number(x), Number(y)));
    use.replaceWith(outline);
  }
}

function readGlyph(drawing: SVGSVGElement, id: string, scaleX: number, scaleY: number): Glyph | null {
  const defined = drawing.querySelector(`defs [id="${CSS.escape(id)}"]`);
  const outline = defined?.querySelector("path");
  if (!outline || defined?.childElementCount !== 1) return null;
  if (!upsideDown.test(outline.getAttribute("transform") ?? "")) return null;
  return scaleGlyph(outline.getAttribute("d") ?? "", scaleX, -scaleY);
}
