import { placeGlyphs } from "./place-glyphs";

const svgType = "image/svg+xml";

/** Reads a drawing as inert nodes: no script can be in them, and none would run. Null when it is no SVG. */
export function readDrawing(text: string): SVGSVGElement | null {
  const parsed = new DOMParser().parseFromString(text, svgType);
  const root = parsed.documentElement;
  if (parsed.querySelector("parsererror") || !(root instanceof SVGSVGElement)) return null;
  for (const element of parsed.querySelectorAll("script, foreignObject, iframe, style, animate, set")) {
    element.remove();
  }
  for (const element of parsed.querySelectorAll("*")) {
    for (const { name } of [...element.attributes]) {
      if (name.toLowerCase().startsWith("on")) element.removeAttribute(name);
    }
  }
  placeGlyphs(root);
  return root;
}
