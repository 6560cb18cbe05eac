import type { ArrangeWords, Move, PictureSign, PictureWords } from "../picture-words";
import { readMarkup } from "../read-picture";
import { readPictureText } from "./picture-text";
import type { PrintFonts } from "./print-fonts";

/** What is moved when it stands in the way; numbers, letters and signs of loudness stay where they are. */
const movable = new Set(["dir", "tempo"]);
/** In sizes of the text, from its baseline: what a line of it takes up. */
const ascent = 0.74;
const descent = 0.22;
/** From the text of a rehearsal letter to the edge of its box, in sizes of the text. */
const boxPadding = 0.35;
/** A line of text, in its sizes. */
const leading = 1;
/** Between words, in units of the picture; a space is about as wide. */
const gap = 70;
/** Words may begin so far from their note: two spaces of a staff. */
const farthestAside = 360;
/** More lines of words than this stand nowhere over each other. */
const mostLines = 8;

interface WordBox {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** Height of one line. */
  readonly line: number;
}

/**
 * Arranges the words of a picture as wide as they are printed: the engraver (verovio 6.3.0) measures in another face and lets
 * words run into one another where there are many. They stay inside the picture; where they would overlap they move aside,
 * or away from the music, line by line.
 */
export function fitWords(fonts: Pick<PrintFonts, "has" | "advance">): ArrangeWords {
  return ({ words, signs, width, staves }) => {
    const boxes = words.map((each) => boxOf(each, fonts));
    const moves: Move[] = words.map(() => ({ x: 0, y: 0 }));
    const taken: PictureSign[] = [...signs];
    for (const [index, box] of boxes.entries())
      if (box && !movable.has(words[index]?.kind ?? "")) taken.push(box);
    let rise = 0;
    for (const index of nearestFirst(boxes, staves)) {
      const box = boxes[index];
      if (!box || !movable.has(words[index]?.kind ?? "")) continue;
      const inside = keepInside(box, width);
      const move = findPlace(moved(box, inside), taken, awayFrom(box, staves), width);
      const sum = { x: inside.x + move.x, y: move.y };
      moves[index] = sum;
      const placed = moved(box, sum);
      taken.push(placed);
      rise = Math.max(rise, move.y < 0 ? -placed.top : 0);
    }
    return { moves, rise: Math.ceil(rise) };
  };
}

function boxOf(words: PictureWords, { has, advance }: Pick<PrintFonts, "has" | "advance">): WordBox | null {
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

/** Whoever stands nearer to the music keeps their place; of one height, from left to right. */
function nearestFirst(
  boxes: readonly (WordBox | null)[],
  { top, bottom }: { readonly top: number; readonly bottom: number },
): number[] {
  const distance = (box: WordBox | null | undefined) =>
    box ? Math.max(0, top - box.bottom, box.top - bottom) : 0;
  const left = (index: number) => boxes[index]?.left ?? 0;
  return boxes
    .map((_, index) => index)
    .sort((a, b) => distance(boxes[a]) - distance(boxes[b]) || left(a) - left(b) || a - b);
}

function keepInside({ left, right }: WordBox, width: number): Move {
  const over = right - width;
  return { x: over > 0 ? -Math.min(over, Math.max(0, left)) : Math.max(0, -left), y: 0 };
}

/** Up over the music, down under it; nowhere between two staves, where other music is. */
function awayFrom(
  { top, bottom }: WordBox,
  staves: { readonly top: number; readonly bottom: number },
): -1 | 0 | 1 {
  if (top < staves.top) return -1;
  return bottom > staves.bottom ? 1 : 0;
}

const moved = (box: WordBox, { x, y }: Move): WordBox => ({
  ...box,
  ...{ left: box.left + x, right: box.right + x, top: box.top + y, bottom: box.bottom + y },
});

/** The nearest place that is free; where there is none, the words stay. */
function findPlace(box: WordBox, taken: readonly PictureSign[], away: -1 | 0 | 1, width: number): Move {
  const isFree = (move: Move) => !taken.some((other) => isOver(moved(box, move), other));
  const stays = { x: 0, y: 0 };
  if (isFree(stays)) return stays;
  for (let lines = 0; lines <= (away === 0 ? 0 : mostLines); lines += 1) {
    const y = lines === 0 ? 0 : away * lines * box.line;
    if (lines > 0 && isFree({ x: 0, y })) return { x: 0, y };
    const aside = asides(box, taken)
      .filter((x) => box.left + x >= 0 && box.right + x <= width)
      .find((x) => isFree({ x, y }));
    if (aside !== undefined) return { x: aside, y };
  }
  return stays;
}

/** How far aside the words might go: just behind, or just before, what stands in their way. The nearest first. */
function asides(box: WordBox, taken: readonly PictureSign[]): number[] {
  return taken
    .flatMap(({ left, right }) => [right + gap - box.left, left - gap - box.right])
    .filter((x) => Math.abs(x) <= farthestAside)
    .sort((a, b) => Math.abs(a) - Math.abs(b));
}

/** A hair's breadth does not count: letters seldom reach their line's very edges. */
const hair = 12;

function isOver(a: PictureSign, b: PictureSign): boolean {
  return (
    a.left < b.right + gap / 2 &&
    b.left < a.right + gap / 2 &&
    a.top < b.bottom - hair &&
    b.top < a.bottom - hair
  );
}
