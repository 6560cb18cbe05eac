import type { Move, PictureSign } from "./picture-words";
import { boxOfSign } from "./sign-boxes";

type Attributes = Readonly<Record<string, string>>;

type Span = Pick<PictureSign, "left" | "right">;

/** A line of a hairpin, or both where they meet, as it stands in what was written. */
interface Line {
  readonly place: number;
  readonly shift: Move;
  readonly points: readonly Move[];
}

interface Hairpin {
  /** It began in a system before. */
  readonly goesOn: boolean;
  readonly lines: Line[];
}

/** Widths of the signs of loudness in the music font (SMuFL E520 to E53B, Leipzig), in thousandths of its size. */
const widths: readonly number[] = [
  ...[306, 405, 232, 225, 194, 260, 290, 1800, 1500, 1200, 900, 600, 711, 637, 306, 479],
  ...[692, 925, 1158, 1390, 532, 492, 428, 728, 1028, 688, 988, 920],
];
const firstSign = 0xe520;
/** How far such a sign reaches over and under its line: the letter f. */
const reach = { over: 450, under: 190 } as const;

/** Between a sign and a hairpin, in units of the picture: a third of a staff space. */
const gap = 60;
/** What a sign would leave at the end of a hairpin is nothing to draw when it is no longer: two spaces. */
const scrap = 360;
/** A hairpin is no shorter for a sign's sake. */
const shortest = 110;
/** The end of a hairpin on the first note of a line: less than this of it looks like an accent. */
const leastGoingOn = 450;

/**
 * Keeps hairpins clear of the signs of loudness and of words. The engraver (verovio 6.3.0) sets the first on one line with them
 * and draws a hairpin through every sign inside its span, and now and then through a word. Here a hairpin begins behind a sign at its start, ends before one at its end, and leaves off for
 * one in between. What goes on to the first note of a new line, and would look like an accent there, is not drawn: the hairpin
 * ends with the line before.
 */
export class HairpinClearer {
  private readonly around: (string | null)[] = [];
  private readonly hairpins: Hairpin[] = [];
  private readonly signs: PictureSign[] = [];

  /** @param out what is written, element by element. */
  constructor(private readonly out: string[]) {}

  /**
   * To be called when the start of an element has been written.
   *
   * @param shift of the element and all around it.
   */
  open(name: string, classes: readonly string[], attributes: Attributes, shift: Move): void {
    const own = classes.includes("hairpin") ? "hairpin" : classes.includes("dynam") ? "dynam" : null;
    if (own === "hairpin") this.hairpins.push({ goesOn: classes.includes("spanning"), lines: [] });
    this.around.push(own ?? this.around.at(-1) ?? null);
    const inside = this.around.at(-1);
    if (name === "use" && inside === "dynam") this.addSign(attributes, shift);
    if (name === "polyline" && inside === "hairpin") {
      const points = readPoints(attributes.points ?? "");
      this.hairpins.at(-1)?.lines.push({ place: this.out.length - 1, shift, points });
    }
  }

  close(): void {
    this.around.pop();
  }

  private addSign({ href, "xlink:href": linked, transform = "" }: Attributes, place: Move): void {
    const sign = Number.parseInt((href ?? linked ?? "").slice(1), 16);
    const right = widths[sign - firstSign];
    if (right !== undefined) this.signs.push(boxOfSign(transform, place, { right, ...reach }));
  }

  /**
   * To be called when all has been written.
   *
   * @param words what they cover.
   */
  clear(words: readonly PictureSign[]): void {
    this.signs.push(...words);
    for (const hairpin of this.hairpins) {
      const box = boxOf(hairpin.lines);
      if (!box) continue;
      if (hairpin.goesOn && box.right - box.left < leastGoingOn) this.rewrite(hairpin, () => []);
      else this.clearOne(hairpin, box);
    }
  }

  private clearOne(hairpin: Hairpin, box: PictureSign): void {
    const inTheWay = this.signs
      .filter((sign) => meets(hairpin.lines, sign))
      .map(({ left, right }) => ({ left: left - gap, right: right + gap }))
      .sort((a, b) => a.left - b.left);
    if (inTheWay.length === 0) return;
    const kept = shorten(box, inTheWay);
    if (!kept) return;
    const inside = inTheWay.filter(({ left, right }) => left < kept.right && right > kept.left);
    const scale = (kept.right - kept.left) / (box.right - box.left);
    const place = ({ x, y }: Move): Move => ({ x: kept.left + (x - box.left) * scale, y });
    this.rewrite(hairpin, (line) => interrupt(line.map(place), inside));
  }

  /** @param draw the lines in place of a line, in the picture's own coordinates. */
  private rewrite({ lines }: Hairpin, draw: (line: readonly Move[]) => readonly (readonly Move[])[]): void {
    for (const { place, shift, points } of lines) {
      const tag = this.out[place] ?? "";
      const drawn = draw(points.map(({ x, y }) => ({ x: x + shift.x, y: y + shift.y })));
      this.out[place] = drawn
        .map((line) => tag.replace(/ points="[^"]*"/, ` points="${writePoints(line, shift)}"`))
        .join("");
    }
  }
}

const readPoints = (text: string): Move[] =>
  [...text.matchAll(/(-?[\d.]+)[\s,]+(-?[\d.]+)/g)].map(([, x, y]) => ({ x: Number(x), y: Number(y) }));

const writePoints = (points: readonly Move[], shift: Move): string =>
  points.map(({ x, y }) => `${Math.round(x - shift.x)},${Math.round(y - shift.y)}`).join(" ");

function boxOf(lines: readonly Line[]): PictureSign | null {
  const points = lines.flatMap(({ shift, points }) =>
    points.map(({ x, y }) => ({ x: x + shift.x, y: y + shift.y })),
  );
  if (points.length === 0) return null;
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  return {
    ...{ left: Math.min(...xs), right: Math.max(...xs) },
    ...{ top: Math.min(...ys), bottom: Math.max(...ys) },
  };
}

/** Whether a sign is on a hairpin, or between its lines, where it stands. */
function meets(lines: readonly Line[], { left, right, top, bottom }: PictureSign): boolean {
  const heights = lines.flatMap(({ shift, points }) =>
    points.slice(1).flatMap((end, index) => {
      const start = points[index] ?? end;
      const [from, to] = start.x < end.x ? [start, end] : [end, start];
      const [first, last] = [Math.max(left - gap - shift.x, from.x), Math.min(right + gap - shift.x, to.x)];
      return first < last ? [first, last].map((x) => shift.y + heightAt(from, to, x)) : [];
    }),
  );
  return heights.length > 0 && top < Math.max(...heights) && bottom > Math.min(...heights);
}

const heightAt = (from: Move, to: Move, x: number): number =>
  from.y + ((to.y - from.y) * (x - from.x)) / (to.x - from.x || 1);

/**
 * From where to where a hairpin is drawn, when signs at its ends, from left to right, take their room; null when they leave it
 * none.
 */
function shorten(whole: Span, signs: readonly Span[]): Span | null {
  let [left, right] = [whole.left, whole.right];
  for (const sign of signs) if (sign.left < left + scrap && sign.right > left) left = sign.right;
  for (const sign of signs.toReversed())
    if (sign.right > right - scrap && sign.left < right && sign.left > left) right = sign.left;
  if (right - left >= shortest) return { left, right };
  if (right === whole.right) return { left, right: left + shortest };
  return left === whole.left ? { left: right - shortest, right } : null;
}

/** What of a line is left beside signs. A line that meets none stays as it is. */
function interrupt(line: readonly Move[], signs: readonly Span[]): (readonly Move[])[] {
  if (signs.length === 0) return [line];
  return line.slice(1).flatMap((end, index) => {
    const start = line[index] ?? end;
    const [from, to] = start.x < end.x ? [start, end] : [end, start];
    const pieces: Move[][] = [];
    let x = from.x;
    for (const sign of signs) {
      if (sign.left > x) pieces.push([at(x), at(Math.min(sign.left, to.x))]);
      x = Math.max(x, sign.right);
    }
    if (x < to.x) pieces.push([at(x), at(to.x)]);
    return pieces;

    function at(place: number): Move {
      return { x: place, y: heightAt(from, to, place) };
    }
  });
}
