import fs from "node:fs";
import { createRequire } from "node:module";
import { create, type Font } from "fontkit";
import wawoff2 from "wawoff2";
import type { Engraver } from "../toolkit";

/** Faces of the printed page. Petrona sets music and titles, Commissioner the small print (both OFL 1.1). */
export type FaceName =
  | "serif"
  | "serif-bold"
  | "serif-italic"
  | "serif-bold-italic"
  | "sans"
  | "sans-bold"
  | "music";

/** Font files by face, TrueType. */
export interface PrintFonts {
  readonly files: Readonly<Record<FaceName, Buffer>>;
  /** Whether a face has a sign. */
  readonly has: (face: FaceName, codePoint: number) => boolean;
  /** Width of text in one face, in widths of its size. */
  readonly advance: (face: FaceName, text: string) => number;
  /** The outlines of a text in one face, with its size as the unit, y upward. */
  readonly outline: (face: FaceName, text: string) => readonly GlyphOutline[];
}

export interface GlyphOutline {
  /** The same for the same sign of the same face. */
  readonly id: string;
  /** SVG path data in units of the font. */
  readonly path: string;
  readonly unitsPerEm: number;
  /** Where it stands, in sizes of the text. */
  readonly x: number;
  readonly y: number;
}

const packaged: Readonly<Record<Exclude<FaceName, "music">, string>> = {
  serif: "@expo-google-fonts/petrona/400Regular/Petrona_400Regular.ttf",
  "serif-bold": "@expo-google-fonts/petrona/700Bold/Petrona_700Bold.ttf",
  "serif-italic": "@expo-google-fonts/petrona/400Regular_Italic/Petrona_400Regular_Italic.ttf",
  "serif-bold-italic": "@expo-google-fonts/petrona/700Bold_Italic/Petrona_700Bold_Italic.ttf",
  sans: "@expo-google-fonts/commissioner/400Regular/Commissioner_400Regular.ttf",
  "sans-bold": "@expo-google-fonts/commissioner/700Bold/Commissioner_700Bold.ttf",
};

/** Texts whose width is remembered. */
const mostWidths = 5000;

let opened: Promise<PrintFonts> | null = null;

/** The fonts of printed pages; read once. The music font is the engraver's own. */
export function openPrintFonts(toolkit: Engraver["toolkit"]): Promise<PrintFonts> {
  opened ??= readFonts(toolkit);
  return opened;
}

async function readFonts(toolkit: Engraver["toolkit"]): Promise<PrintFonts> {
  const require = createRequire(import.meta.url);
  const entries = Object.entries(packaged).map(
    ([face, file]) => [face, fs.readFileSync(require.resolve(file))] as const,
  );
  // Every face has been given a file above.
  const files = Object.fromEntries([
    ...entries,
    ["music", await readMusicFont(toolkit)],
  ]) as PrintFonts["files"];
  const fonts = new Map(Object.entries(files).map(([face, file]) => [face, create(file)]));
  const known = new Map<string, boolean>();
  const has = (face: FaceName, codePoint: number): boolean => {
    const key = `${face} ${codePoint}`;
    const answer = known.get(key) ?? fonts.get(face)?.hasGlyphForCodePoint(codePoint) ?? false;
    known.set(key, answer);
    return answer;
  };
  const widths = new Map<string, number>();
  const advance = (face: FaceName, text: string): number => {
    const key = `${face} ${text}`;
    const font = fonts.get(face);
    const width = widths.get(key) ?? (font ? font.layout(text).advanceWidth / font.unitsPerEm : 0);
    // The same words stand at the foot of every page; a thread prints many editions.
    if (widths.size >= mostWidths) widths.clear();
    widths.set(key, width);
    return width;
  };
  const outline = (face: FaceName, text: string) => outlineText(face, fonts.get(face), text);
  return { files, has, advance, outline };
}

function outlineText(face: FaceName, font: Font | undefined, text: string): GlyphOutline[] {
  if (!font) return [];
  const { unitsPerEm } = font;
  const { glyphs, positions } = font.layout(text);
  let at = 0;
  return glyphs.map((glyph, index) => {
    const { xAdvance = 0, xOffset = 0, yOffset = 0 } = positions[index] ?? {};
    const x = (at + xOffset) / unitsPerEm;
    at += xAdvance;
    return { id: `${face}-${glyph.id}`, path: glyph.path.toSVG(), unitsPerEm, x, y: yOffset / unitsPerEm };
  });
}

/** A bar with a metronome mark: the engraver then puts its font (WOFF2) into the picture. */
const needsMusicFont = `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name/></score-part></part-list>
<part id="P1"><measure number="1"><attributes><divisions>1</divisions></attributes><direction><direction-type><metronome>
<beat-unit>quarter</beat-unit><per-minute>60</per-minute></metronome></direction-type></direction><note><rest/><duration>4
</duration><type>whole</type></note></measure></part></score-partwise>`;

async function readMusicFont(toolkit: Engraver["toolkit"]): Promise<Buffer> {
  toolkit.setOptions({ smuflTextFont: "embedded" });
  toolkit.loadData(needsMusicFont);
  const embedded = /base64,([A-Za-z0-9+/=]+)/.exec(toolkit.renderToSVG(1))?.[1];
  if (!embedded) throw new Error("The engraver did not give its music font");
  return Buffer.from(await wawoff2.decompress(Buffer.from(embedded, "base64")));
}
