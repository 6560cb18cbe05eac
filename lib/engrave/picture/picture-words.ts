import { boxesOfCurve, boxOfLine } from "./sign-boxes";

/** Words of a picture as they are written there, with where they stand. */
export interface PictureWords {
  /** A `text` element. */
  readonly markup: string;
  /** How far everything around it is shifted. */
  readonly shift: Move;
  /** What they are, as the engraver calls it: "dir", "tempo", "mNum". */
  readonly kind: string;
  readonly isBold: boolean;
  readonly isItalic: boolean;
}

/** A sign that words must not cover. */
export interface PictureSign {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** What stands in a picture. */
export interface PictureTexts {
  readonly words: readonly PictureWords[];
  readonly signs: readonly PictureSign[];
  /** Slurs, ties and lines, piece by piece. */
  readonly lines: readonly PictureSign[];
  /** Notes and all that belongs to them, and staves, bar by bar. */
  readonly notes: readonly PictureSign[];
  readonly width: number;
  readonly height: number;
  /** Upper edge of the highest staff and lower edge of the lowest. */
  readonly staves: { readonly top: number; readonly bottom: number };
}

export interface Move {
  readonly x: number;
  readonly y: number;
}

export interface ArrangedWords {
  /** How far each of the words is moved, in their order. */
  readonly moves: readonly Move[];
  /** How much more room the picture needs for it over and under it. */
  readonly rise: number;
  readonly fall: number;
  /** What words cover where they then are, without what of their letters rises or falls. */
  readonly covered: readonly PictureSign[];
}

export type ArrangeWords = (texts: PictureTexts) => ArrangedWords;

/** What the engraver says in a style sheet, which would reach into the whole page. */
export const boldKinds: ReadonlySet<string> = new Set(["ending", "fing", "reh", "tempo"]);
export const italicKinds: ReadonlySet<string> = new Set(["dir", "dynam", "mNum"]);

/** Kinds of words that are arranged, or that others keep clear of. */
const kinds = new Set(["dir", "dynam", "ending", "fing", "mNum", "reh", "syl", "tempo"]);
/** Kinds of lines that words keep clear of. */
const lineKinds = new Set(["slur", "tie", "bracketSpan"]);
/** Of the count over a long rest: the height of its figures, and how far the next is to the right (verovio 6.3.0). */
const countHeight = 360;
const countWidth = 330;
/** Words over a count leave so much room: hanging letters and brackets would touch its figures. */
const countGap = 50;
/** And those before it so much: they would be read together with its figures. */
const countBefore = 100;

/** Gathers the words of a picture while it is written, and moves them in what was written. */
export class WordGatherer {
  private readonly found: { from: number; to: number; shift: Move; kind: string }[] = [];
  private readonly signs: PictureSign[] = [];
  private readonly lines: PictureSign[] = [];
  private readonly around: (string | null)[] = [];

  /** @param out what is written, element by element; the next is written behind it. */
  constructor(private readonly out: string[]) {}

  open(name: string, classes: readonly string[], shift: Move): void {
    const kind = classes.find((each) => kinds.has(each) || lineKinds.has(each) || each === "multiRestNum");
    this.around.push(kind ?? this.around.at(-1) ?? null);
    const own = this.around.at(-1);
    if (name === "text" && own && kinds.has(own)) this.begin(own, shift);
  }

  /** The next that is written is a text. */
  begin(kind: string, shift: Move): void {
    this.found.push({ from: this.out.length, to: -1, shift, kind });
  }

  /** It has been written. */
  end(): void {
    const last = this.found.at(-1);
    if (last?.to === -1) last.to = this.out.length;
  }

  /** To be called when the end of the element has been written. */
  close(name: string): void {
    this.around.pop();
    if (name === "text") this.end();
  }

  /** A sign of the music font; what it is shifted by is its place. */
  addSign({ x, y }: Move): void {
    if (this.around.at(-1) !== "multiRestNum") return;
    this.signs.push({
      left: x - countBefore,
      right: x + countWidth,
      top: y - countHeight / 2 - countGap,
      bottom: y + countHeight / 2,
    });
  }

  /** Whether a straight line over or under a staff is open. */
  isInLine(): boolean {
    return this.around.at(-1) === "bracketSpan";
  }

  /** A shape as it is written: of a slur, a tie or a line, when one is open. */
  addShape(written: readonly (readonly [string, string])[], shift: Move): void {
    const kind = this.around.at(-1) ?? "";
    if (!lineKinds.has(kind)) return;
    const points = written.find(([key]) => key === "d" || key === "points")?.[1] ?? "";
    const box = kind === "bracketSpan" ? boxOfLine(points, shift) : null;
    this.lines.push(...(box ? [box] : kind === "bracketSpan" ? [] : boxesOfCurve(points, shift)));
  }

  /** @param arrange null where words stay where they are. */
  arrange(
    arrange: ArrangeWords | null,
    about: Pick<PictureTexts, "width" | "height" | "staves" | "notes">,
  ): Omit<ArrangedWords, "moves"> {
    if (!arrange || this.found.length === 0) return { rise: 0, fall: 0, covered: [] };
    const words = this.found.map(({ from, to, shift, kind }) => ({
      ...{ markup: this.out.slice(from, to).join(""), shift, kind },
      ...{ isBold: boldKinds.has(kind), isItalic: italicKinds.has(kind) },
    }));
    const { moves, ...room } = arrange({ ...about, words, signs: this.signs, lines: this.lines });
    for (const [index, move] of moves.entries()) {
      const { from = 0, to = 0 } = this.found[index] ?? {};
      for (let place = from; place < to; place += 1)
        this.out[place] = moveElement(this.out[place] ?? "", move);
    }
    return room;
  }
}

function moveElement(tag: string, by: Move): string {
  if (by.x === 0 && by.y === 0) return tag;
  return tag.replace(
    / (x|y)="(-?[\d.]+)"/g,
    (_, key: "x" | "y", value: string) => ` ${key}="${Math.round(Number(value) + by[key])}"`,
  );
}
