import { deWord, viWord } from "@/lib/musicxml/cut/mark-join";
import type { ArrangeWords, Move, PictureSign, PictureTexts } from "../picture/picture-words";
import { findPlace, isOver, riseOver, wordGap } from "./find-place";
import type { PrintFonts } from "./print-fonts";
import { boxOfWords, coreOf, moved, type WordBox } from "./word-box";

/** What is moved when it stands in the way; letters and signs of loudness stay where they are. */
const movable = new Set(["dir", "tempo"]);
/** What belongs to notes: sung words, fingerings. */
const ofNotes = new Set(["fing", "syl"]);
/** Words over the highest staff end so far above it, in units of the picture. */
const staffGap = 40;
/** Between the lowest words and the picture's edge. */
const edge = 60;

type Staves = PictureTexts["staves"];

/**
 * Arranges the words of a picture as wide as they are printed: the engraver (verovio 6.3.0) measures in another face, lets
 * words run into one another where there are many, and slurs through them. They stay inside the picture and over the staff;
 * where they would overlap anything they move aside, or away from the music. A bar's number ends before a letter, and stands
 * over a high note that follows it.
 */
export function fitWords(fonts: Pick<PrintFonts, "has" | "advance">): ArrangeWords {
  return ({ words, signs, lines, notes, width, height, staves }) => {
    const boxes = words.map((each) => boxOfWords(each, fonts));
    const kindOf = (index: number) => words[index]?.kind ?? "";
    const atNotes = boxes.flatMap((box, index) => (box && ofNotes.has(kindOf(index)) ? [box] : []));
    const music = [...notes, ...atNotes];
    const moves: Move[] = placeNumbers(words, boxes, notes);
    const taken = [...signs];
    const covered: PictureSign[] = [];
    let [rise, fall] = [0, 0];
    const isRemark = (index: number) =>
      movable.has(kindOf(index)) && rankOf(words[index]?.markup ?? "") === lastRank;
    const settle = (box: WordBox, move: Move) => {
      const placed = moved(box, move);
      taken.push(placed);
      if (move.y < 0) rise = Math.max(rise, -placed.top);
      if (move.y > 0) fall = Math.max(fall, placed.bottom + edge - height);
    };
    for (const [index, box] of boxes.entries()) {
      if (!box || ofNotes.has(kindOf(index)) || movable.has(kindOf(index))) continue;
      settle(box, moves[index] ?? stays);
      if (kindOf(index) === "dynam") covered.push(coreOf(box));
    }
    const order = nearestFirst(boxes, staves, (index) => rankOf(words[index]?.markup ?? ""));
    for (const [turn, index] of order.entries()) {
      const box = boxes[index];
      if (!box || !movable.has(kindOf(index))) continue;
      const markup = words[index]?.markup ?? "";
      const below = rankOf(markup) < lastRank ? boxes.filter((_, other) => isRemark(other)) : [];
      const lowered = lower(box, below, staves);
      const start = {
        x: inside(box, width),
        y: lowered + offStaff(moved(box, { x: 0, y: lowered }), staves),
      };
      const away = awayFrom(box, staves);
      const isMark = kindOf(index) === "tempo" && hasNoteSign(markup);
      const inTheWay = {
        ...{ words: taken, lines, notes: music },
        waiting: order
          .slice(turn + 1)
          .flatMap((other) => (movable.has(kindOf(other)) ? (boxes[other] ?? []) : [])),
        ...{
          // Between two staves there is seldom any room over the notes.
          keepsOffNotes: isEnlarged(markup) || (isMark && away !== 0),
          endsBar: markup.includes(viWord),
        },
      };
      const move = findPlace(moved(box, start), inTheWay, away, width);
      moves[index] = { x: start.x + move.x, y: start.y + move.y };
      settle(box, moves[index]);
      covered.push(coreOf(moved(box, moves[index])));
    }
    return { moves, rise: Math.ceil(rise), fall: Math.ceil(fall), covered };
  };
}

const stays: Move = { x: 0, y: 0 };

/** Words of a cut, and the players' own, are set larger, or in another face, than the engraver has found room for. */
const isEnlarged = (markup: string): boolean => isCutWord(markup) || /font-family="(?!Leipzig)/.test(markup);

/** The note of a metronome mark is larger than the words around it, and on a note would look like a second head. */
const hasNoteSign = (markup: string): boolean => markup.includes('font-family="Leipzig"');

const isCutWord = (markup: string): boolean => markup.includes(viWord) || markup.includes(deWord);

/** Numbers that a rehearsal letter would cover end before it, those that a note would cover rise over it. */
function placeNumbers(
  words: PictureTexts["words"],
  boxes: readonly (WordBox | null)[],
  notes: PictureTexts["notes"],
): Move[] {
  const letters = boxes.flatMap((box, index) => (box && words[index]?.kind === "reh" ? [box] : []));
  return boxes.map((box, index) => {
    if (!box || words[index]?.kind !== "mNum") return stays;
    const letter = letters.find((each) => isOver(box, each));
    const x = letter ? Math.max(letter.left - wordGap - box.right, -box.left) : 0;
    return { x, y: 0 - riseOver(moved(box, { x, y: 0 }), notes) };
  });
}

/** Names of instruments are the players' own words in sans. */
const isName = (markup: string): boolean => markup.includes('font-family="sans-serif"');

/** Who keeps their place before others: the words of a cut, then names of instruments. */
const rankOf = (markup: string): number => (isCutWord(markup) ? 0 : isName(markup) ? 1 : lastRank);
const lastRank = 2;

/**
 * How far down words over the highest staff have to go to stand where the lowest of others below them does, which the engraver
 * places in their order: a name belongs next to its notes, the words of a cut to their bar line, and others rise over them.
 */
function lower(box: WordBox, others: readonly (WordBox | null)[], staves: Staves): number {
  const bottoms = others.flatMap((other) =>
    other && isBelow(other, box) && other.top < staves.top ? [other.bottom + offStaff(other, staves)] : [],
  );
  return awayFrom(box, staves) === -1 ? Math.max(0, ...bottoms.map((bottom) => bottom - box.bottom)) : 0;
}

const isBelow = (a: WordBox, b: WordBox): boolean =>
  a.bottom > b.bottom && a.left < b.right + wordGap && b.left < a.right + wordGap;

/** Of one rank, whoever stands nearer to the music keeps their place; of one height, from left to right. */
function nearestFirst(
  boxes: readonly (WordBox | null)[],
  { top, bottom }: Staves,
  rank: (index: number) => number,
): number[] {
  const distance = (box: WordBox | null | undefined) =>
    box ? Math.max(0, top - box.bottom, box.top - bottom) : 0;
  const left = (index: number) => boxes[index]?.left ?? 0;
  return boxes
    .map((_, index) => index)
    .sort(
      (a, b) => rank(a) - rank(b) || distance(boxes[a]) - distance(boxes[b]) || left(a) - left(b) || a - b,
    );
}

/** How far words have to go to the left, or to the right, to be inside the picture. */
function inside({ left, right }: WordBox, width: number): number {
  const over = right - width;
  return over > 0 ? -Math.min(over, Math.max(0, left)) : Math.max(0, -left);
}

/** How far up words over the highest staff that reach down to it have to go. */
function offStaff({ top, bottom, line }: WordBox, staves: Staves): number {
  const low = bottom - (staves.top - staffGap);
  return top < staves.top && low > 0 && low < line ? -low : 0;
}

/** Up over the music, down under it; nowhere between two staves, where other music is. */
function awayFrom({ top, bottom }: WordBox, staves: Staves): -1 | 0 | 1 {
  if (top < staves.top) return -1;
  return bottom > staves.bottom ? 1 : 0;
}
