import { keepApart } from "./keep-apart";
import type { Scale } from "./scale";
import type { StripLetter, StripTempo } from "./strip-piece";

/** Mean width of a letter in the strip's 13 px italic and of a figure in its 11 px, measured on the fonts in use. */
const wordPixels = 6.2;
const figurePixels = 6.4;
const between = 5;

export interface TempoLabel {
  readonly x: number;
  readonly words: string;
  readonly beats: string | null;
}

function tempoWidth(words: string, beats: string | null): number {
  return words.length * wordPixels + (beats === null ? 0 : beats.length * figurePixels + between);
}

/** Tempo words with their beats. What has no room at the right edge loses its words, then goes; what collides goes. */
export function placeTempi(tempi: readonly StripTempo[], scale: Scale): TempoLabel[] {
  const labels = tempi.flatMap((tempo) => {
    const x = scale.x(tempo.at);
    const words = tempo.words ?? "";
    if (words === "" && tempo.beats === null) return [];
    return x + tempoWidth(words, tempo.beats) > scale.width + 12 ? [] : [{ x, words, beats: tempo.beats }];
  });
  return keepApart(labels, (label) => ({ x: label.x, width: tempoWidth(label.words, label.beats) }), 8);
}

export interface LetterBox {
  readonly x: number;
  readonly width: number;
  /** Empty for a letter whose box had no room: only its tick is drawn. */
  readonly text: string;
  readonly letter: StripLetter;
}

const letterPixels = 8;
const boxPixels = 16;

/** Rehearsal boxes; of two that would overlap the later one keeps only its tick. */
export function placeLetters(letters: readonly StripLetter[], scale: Scale): LetterBox[] {
  const boxes = letters.map((letter) => ({
    x: scale.x(letter.at),
    width: Math.max(boxPixels, letter.text.length * letterPixels + 7),
    text: letter.text,
    letter,
  }));
  const whole = new Set(keepApart(boxes, (box) => box, 0));
  return boxes.map((box) => (whole.has(box) ? box : { ...box, text: "" }));
}
