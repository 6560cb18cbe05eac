import type { Move, PictureSign, PictureWords } from "../picture/picture-words";
import { readMarkup } from "../picture/read-picture";
import { readPictureText } from "./picture-text";
import type { PrintFonts } from "./print-fonts";

/** In sizes of the text, from its baseline: what a line of it takes up. */
const ascent = 0.74;
const descent = 0.22;
/** From the text of a rehearsal letter to the edge of its box, in sizes of the text. */
const boxPadding = 0.35;
/** A line of text, in its sizes. */
const leading = 1;

/** What words cover, in units of their picture. */
export interface WordBox extends PictureSign {
  /** Height of one line. */
  readonly line: number;
}

/** @returns null for words that show nothing. */
export function boxOfWords(
  words: PictureWords,
  { has, advance }: Pick<PrintFonts, "has" | "advance">,
): WordBox | null {
  const runs = readPictureText(
    readMarkup(words.markup),
    words,
    has,
    (face, size, text) => advance(face, text) * size,
  ).filter(({ text }) => text.trim() !== "");
  if (runs.length === 0) return null;
  const { x, y } = words.shift;
  const size = Math.max(...runs.map((run) => run.size));
  const padding = words.kind === "reh" ? boxPadding * size : 0;
  return {
    left: x + Math.min(...runs.map((run) => run.x)) - padding,
    right: x + Math.max(...runs.map((run) => run.x + advance(run.face, run.text) * run.size)) + padding,
    top: y + Math.min(...runs.map((run) => run.y - run.size * ascent)) - padding,
    bottom: y + Math.max(...runs.map((run) => run.y + run.size * descent)) + padding,
    line: size * leading,
  };
}

export const moved = (box: WordBox, { x, y }: Move): WordBox => ({
  ...box,
  ...{ left: box.left + x, right: box.right + x, top: box.top + y, bottom: box.bottom + y },
});

/** Of a line, what its tall letters rise over the others, and its long ones fall under them. */
const tall = 0.26;

/** What covers most of their letters. */
export const coreOf = ({ left, right, top, bottom, line }: WordBox): PictureSign => ({
  ...{ left, right },
  ...{ top: top + tall * line, bottom: bottom - tall * line },
});
