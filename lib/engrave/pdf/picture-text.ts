import { deWord, viWord } from "@/lib/musicxml/cut/mark-join";
import type { XmlElement, XmlNode } from "@/lib/musicxml/xml-tree";
import type { FaceName, PrintFonts } from "./print-fonts";
import { splitByFace } from "./text-runs";

/** A stretch of text with the place of its baseline's start. */
export interface PlacedRun {
  readonly text: string;
  readonly face: FaceName;
  readonly size: number;
  readonly x: number;
  readonly y: number;
}

interface TypeStyle {
  readonly isBold: boolean;
  readonly isItalic: boolean;
  readonly isMusic: boolean;
  readonly isSans: boolean;
  readonly size: number;
  readonly rise: number;
}

/** Runs that follow each other and are aligned together. */
interface Line {
  readonly x: number;
  readonly y: number;
  readonly runs: {
    text: string;
    face: FaceName;
    size: number;
    rise: number;
    /** Room before it, when something precedes. */
    lead: number;
    isEnlarged: boolean;
  }[];
}

/** In units of our pictures. Words over a full staff are 405 high; below this they belong to a small one. */
const smallTextSize = 380;
/** "Vi-" and "-de" have to be seen from the music stand, over a small staff too. */
const cutWordSize = 420;
/** A sign of loudness inside words, such as "poco f", is as large as one that stands alone: so much larger than the words. */
const loudnessFactor = 720 / 405;
/** It begins so far before its place, in sizes: the letter f. */
const loudnessBearing = 0.094;
const loudness = /^[\ue520-\ue53b]/;
/** How far they stand from the bar line, beside the number of the bar: a share of their size. */
const cutWordShift = 0.35;

/** Between an opening bracket and the note of a tempo behind it, in sizes of the bracket: their outlines would touch. */
const noteGap = 0.09;

/** Lays out a `text` element of our pictures. */
export function readPictureText(
  node: XmlElement,
  type: { readonly isBold: boolean; readonly isItalic: boolean },
  has: PrintFonts["has"],
  measure: (face: FaceName, size: number, text: string) => number,
): PlacedRun[] {
  const lines: Line[] = [{ x: Number(node.attributes.x ?? 0), y: Number(node.attributes.y ?? 0), runs: [] }];
  const style = styleOf(node, { ...type, isMusic: false, isSans: false, size: 0, rise: 0 });
  for (const inner of node.children) collect(inner, style, lines, has);
  const anchor = node.attributes["text-anchor"];
  return lines.flatMap(({ x, y, runs }) => {
    // Measuring takes longer than all the rest, and most texts are one run that begins at its place.
    const isMeasured = runs.length > 1 || anchor === "end" || anchor === "middle";
    const widths = isMeasured ? runs.map((run) => measure(run.face, run.size, run.text)) : [];
    for (const [index, run] of runs.entries()) {
      const isBeforeNote = run.text.endsWith("(") && runs[index + 1]?.face === "music";
      if (isBeforeNote) widths[index] = (widths[index] ?? 0) + noteGap * run.size;
    }
    const width = widths.reduce((sum, each) => sum + each, 0);
    let at = (anchor === "end" ? x - width : anchor === "middle" ? x - width / 2 : x) + shiftOf(runs);
    return runs.map(({ text, face, size, rise, lead }, index) => {
      if (index > 0) at += lead;
      const placed = { text, face, size, x: at, y: y - rise };
      at += widths[index] ?? 0;
      return placed;
    });
  });
}

function shiftOf(runs: Line["runs"]): number {
  const first = runs[0];
  if (first?.text === viWord) return -cutWordShift * first.size;
  // Over a full staff it stands where the engraver has found room for it, which may be little beside a long rest.
  return first?.text === deWord && first.isEnlarged ? cutWordShift * first.size : 0;
}

function collect(node: XmlNode, style: TypeStyle, lines: Line[], has: PrintFonts["has"]): void {
  if (node.kind === "text") {
    const isCutWord =
      node.text.startsWith(viWord) || node.text.startsWith(deWord) || node.text.startsWith("Vi–de");
    const isEnlarged = isCutWord && style.size < smallTextSize;
    const size = isEnlarged ? cutWordSize : style.size;
    for (const run of splitByFace(node.text, faceOf(style), has)) {
      const isLoudness = run.face === "music" && !style.isMusic && loudness.test(run.text);
      const own = isLoudness ? Math.round(size * loudnessFactor) : size;
      const lead = isLoudness ? loudnessBearing * own : 0;
      lines.at(-1)?.runs.push({ ...run, size: own, rise: style.rise, lead, isEnlarged });
    }
  }
  if (node.kind !== "element") return;
  const { x, y, dx, dy } = node.attributes;
  const last = lines.at(-1);
  const isMoved = [x, y, dx, dy].some((value) => value !== undefined);
  if (isMoved && last) {
    lines.push({
      x: Number(x ?? last.x) + Number(dx ?? 0),
      y: Number(y ?? last.y) + Number(dy ?? 0),
      runs: [],
    });
  }
  const inner = styleOf(node, style);
  for (const next of node.children) collect(next, inner, lines, has);
}

function styleOf({ attributes }: XmlElement, around: TypeStyle): TypeStyle {
  const size = Number.parseFloat(attributes["font-size"] ?? "");
  const shift = attributes["baseline-shift"];
  return {
    size: size > 0 ? size : around.size,
    isBold: attributes["font-weight"] ? attributes["font-weight"] === "bold" : around.isBold,
    isItalic: attributes["font-style"] ? attributes["font-style"] !== "normal" : around.isItalic,
    isMusic: attributes["font-family"] === "Leipzig" || around.isMusic,
    isSans: attributes["font-family"] === "sans-serif" || around.isSans,
    rise: shift === "super" ? around.size * 0.33 : shift === "sub" ? around.size * -0.2 : around.rise,
  };
}

function faceOf({ isMusic, isSans, isBold, isItalic }: TypeStyle): FaceName {
  if (isMusic) return "music";
  if (isSans) return isBold ? "sans-bold" : "sans";
  if (isBold) return isItalic ? "serif-bold-italic" : "serif-bold";
  return isItalic ? "serif-italic" : "serif";
}
