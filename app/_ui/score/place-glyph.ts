/** A glyph's outline in the size at which it is drawn. */
export interface Glyph {
  /** Where its outline begins, from the place of the glyph. */
  readonly x: number;
  readonly y: number;
  /** The rest of the outline's path data; nothing in it depends on where it stands. */
  readonly rest: string;
}

/** How many numbers each command of path data takes; arcs, which have flags and angles, do not occur in glyphs. */
const arity: Readonly<Record<string, number>> = { m: 2, l: 2, h: 1, v: 1, c: 6, s: 4, q: 4, t: 2, z: 0 };

const tokens = /[a-z]|[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?/gi;

const short = (value: number) => String(Math.round(value * 100) / 100);

/** A pen that writes every command with offsets from where it is. */
class Pen {
  readonly written: string[] = [];
  first: readonly [number, number] | null = null;
  private at: readonly [number, number] = [0, 0];
  private start: readonly [number, number] = [0, 0];

  constructor(
    private readonly scaleX: number,
    private readonly scaleY: number,
  ) {}

  /** @param command of path data, one letter, and its numbers. */
  draw(command: string, numbers: readonly number[]): void {
    const name = command.toLowerCase();
    if (name === "z") {
      this.at = this.start;
      this.written.push("z");
      return;
    }
    const isVertical = (index: number) => name === "v" || (name !== "h" && index % 2 === 1);
    const isAbsolute = command !== name;
    const offsets = numbers.map((value, index) =>
      isAbsolute ? value - (this.at[isVertical(index) ? 1 : 0] ?? 0) : value,
    );
    const last = offsets.length - 1;
    const [x, y] = this.at;
    this.at =
      name === "v"
        ? [x, y + (offsets[last] ?? 0)]
        : name === "h"
          ? [x + (offsets[last] ?? 0), y]
          : [x + (offsets[last - 1] ?? 0), y + (offsets[last] ?? 0)];
    if (name === "m") this.start = this.at;
    if (this.first === null) this.first = this.at;
    else {
      const scaled = offsets.map((offset, index) => offset * (isVertical(index) ? this.scaleY : this.scaleX));
      this.written.push(name, scaled.map(short).join(" "));
    }
  }
}

/**
 * Takes a glyph's outline to the size at which it is drawn.
 *
 * @param outline path data in the units of the font. @param scaleY negative where the font's y axis points upwards.
 * @returns null for path data that glyphs do not have.
 */
export function scaleGlyph(outline: string, scaleX: number, scaleY: number): Glyph | null {
  const read = outline.match(tokens) ?? [];
  const pen = new Pen(scaleX, scaleY);
  let command = "";
  for (let at = 0; at < read.length; ) {
    const token = read[at] ?? "";
    if (/[a-z]/i.test(token)) {
      command = token;
      at += 1;
    } else if (command === "m" || command === "M") command = command === "m" ? "l" : "L";
    const count = arity[command.toLowerCase()];
    if (count === undefined || (count === 0 && !/[a-z]/i.test(token))) return null;
    const numbers = read.slice(at, at + count).map(Number);
    if (numbers.length < count || numbers.some(Number.isNaN)) return null;
    pen.draw(command, numbers);
    at += count;
  }
  return pen.first && { x: pen.first[0] * scaleX, y: pen.first[1] * scaleY, rest: pen.written.join("") };
}

/** Path data of a glyph at a place of the drawing. */
export function placeGlyph({ x, y, rest }: Glyph, atX: number, atY: number): string {
  return `M${short(atX + x)} ${short(atY + y)}${rest}`;
}
