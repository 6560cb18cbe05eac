import { readDrawing } from "@/app/_ui/score/read-drawing";
import type { ReadingPage } from "@/lib/engrave/pages/reading-plan";
import type { PageSize } from "./fit-pages";

const svgSpace = "http://www.w3.org/2000/svg";
type Item = ReadingPage["words"][number]["items"][number];

/**
 * A page as one drawing, in points: its lines of music where they stand, and the words around them.
 *
 * @param pictureOf the picture of a system as SVG.
 */
export function composePage(
  page: ReadingPage,
  size: PageSize,
  pictureOf: (index: number) => string | null,
): SVGSVGElement {
  const whole = element("svg", { viewBox: `0 0 ${size.width} ${size.height}` });
  for (const { index, x, y, width, height } of page.systems) {
    const drawing = readDrawing(pictureOf(index) ?? "");
    if (!drawing) continue;
    const placed = document.importNode(drawing, true);
    for (const [name, value] of Object.entries({ x, y, width, height, overflow: "visible" }))
      placed.setAttribute(name, `${value}`);
    whole.append(placed);
  }
  for (const item of page.words.flatMap(({ items }) => items)) whole.append(drawItem(item));
  return whole;
}

const anchors = { left: "start", center: "middle", right: "end" } as const;

function drawItem(item: Item): SVGElement {
  if (item.kind === "rule") {
    const { x1, x2, y, thickness } = item;
    return element("line", { x1, x2, y1: y, y2: y, "stroke-width": thickness, stroke: "currentColor" });
  }
  const { text, x, y, style } = item;
  const { face, size, align = "left", grey = 0 } = style;
  const drawn = element("text", {
    ...{ x, y, "font-size": size, "text-anchor": anchors[align], fill: "currentColor" },
    class: classOf(face, grey),
  });
  drawn.textContent = text;
  return drawn;
}

/** "serif-bold-italic" → "words serif bold italic". */
const classOf = (face: string, grey: number): string =>
  ["words", ...face.split("-"), ...(grey > 0 ? ["quiet"] : [])].join(" ");

function element<K extends keyof SVGElementTagNameMap>(
  name: K,
  attributes: Readonly<Record<string, string | number>>,
): SVGElementTagNameMap[K] {
  const made = document.createElementNS(svgSpace, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, `${value}`);
  return made;
}
