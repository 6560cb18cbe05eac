import PDFDocument from "pdfkit";
import { describe, expect, it } from "vitest";
import { drawPicture } from "@/lib/engrave/pdf/draw-picture";

const side = 1000;

/** What rectangles of a picture cover on a page as large as itself: left, top, right, bottom. */
async function drawnRectangles(inside: string): Promise<number[][]> {
  const document = new PDFDocument({ size: [side, side], margin: 0, compress: false });
  const chunks: Buffer[] = [];
  document.on("data", (chunk: Buffer) => chunks.push(chunk));
  const ended = new Promise((resolve) => document.on("end", resolve));
  const svg = `<svg viewBox="0 0 ${side} ${side}">${inside}</svg>`;
  drawPicture({ document, hasGlyph: () => false }, svg, 0, 0, side);
  document.end();
  await ended;
  return readRectangles(Buffer.concat(chunks).toString("latin1"));
}

type Matrix = readonly [number, number, number, number, number, number];
const times = ([a, b, c, d, e, f]: Matrix, [p, q, r, s, t, u]: Matrix): Matrix => [
  ...([p * a + q * c, p * b + q * d, r * a + s * c] as const),
  ...([r * b + s * d, t * a + u * c + e, t * b + u * d + f] as const),
];

/** ISO 32000: q and Q keep and bring back what cm has changed; re is a rectangle. */
function readRectangles(pdf: string): number[][] {
  const kept: Matrix[] = [];
  let now: Matrix = [1, 0, 0, 1, 0, 0];
  const found: number[][] = [];
  for (const [line] of pdf.matchAll(/^(?:q|Q|[-\d. ]+ (?:cm|re))$/gm)) {
    const numbers = line.split(" ").slice(0, -1).map(Number);
    if (line === "q") kept.push(now);
    else if (line === "Q") now = kept.pop() ?? now;
    else if (line.endsWith("cm")) now = times(now, numbers as unknown as Matrix);
    else {
      const [x = 0, y = 0, width = 0, height = 0] = numbers;
      const from = times(now, [1, 0, 0, 1, x, y]).slice(4);
      const to = times(now, [1, 0, 0, 1, x + width, y + height]).slice(4);
      const [xs, ys] = [0, 1].map((axis) => [from[axis] ?? 0, to[axis] ?? 0].sort((a, b) => a - b));
      const edges = [xs?.[0], side - (ys?.[1] ?? 0), xs?.[1], side - (ys?.[0] ?? 0)];
      found.push(edges.map((edge) => Math.round(edge ?? Number.NaN)));
    }
  }
  return found;
}

const rectangle = '<rect x="100" y="200" width="50" height="10"/>';

describe("drawPicture", () => {
  it.each([
    ["", [100, 200, 150, 210]],
    ["translate(0, 30)", [100, 230, 150, 240]],
    ["translate(10, 20) scale(2, 2)", [210, 420, 310, 440]],
    // The wave of a rolled chord is laid out from left to right and turned upward.
    ["rotate(-90.000000 100,200)", [100, 150, 110, 200]],
  ])("draws a group under %j", async (transform, covered) => {
    expect(await drawnRectangles(`<g transform="${transform}">${rectangle}</g>${rectangle}`)).toEqual([
      covered,
      [100, 200, 150, 210],
    ]);
  });
});
