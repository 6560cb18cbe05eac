import type { FaceName, PrintFonts } from "./print-fonts";

/** Text in one face. */
export interface TextRun {
  readonly text: string;
  readonly face: FaceName;
}

/** Where a sign is looked for when the wanted face has it not: Greek and Cyrillic in the sans, accidentals in the music font. */
const substitutes: readonly FaceName[] = ["sans", "music"];

/**
 * Text split by what each face can show. A sign that no face has stays with the wanted one, which draws its empty box.
 */
export function splitByFace(text: string, wanted: FaceName, has: PrintFonts["has"]): TextRun[] {
  const runs: { text: string; face: FaceName }[] = [];
  for (const sign of text.normalize("NFC")) {
    const face = faceFor(sign, wanted, has);
    const last = runs.at(-1);
    if (last?.face === face) last.text += sign;
    else runs.push({ text: sign, face });
  }
  return runs;
}

function faceFor(sign: string, wanted: FaceName, has: PrintFonts["has"]): FaceName {
  const codePoint = sign.codePointAt(0) ?? 0;
  if (has(wanted, codePoint)) return wanted;
  const bold: FaceName = wanted.endsWith("bold") ? "sans-bold" : "sans";
  return [bold, ...substitutes].find((face) => has(face, codePoint)) ?? wanted;
}
