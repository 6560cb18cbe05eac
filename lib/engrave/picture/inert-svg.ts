import { type MarkStyle, readMarkStyle } from "../mark-style";
import { FirstKeyNaturals } from "../ossia/first-key-naturals";
import type { BarBox, EngravedSystem } from "../screen-engraving";
import { BarBoxReader } from "./bar-boxes";
import { HairpinClearer } from "./clear-hairpins";
import { enlargeLetter, type OpenLetter } from "./enlarge-letter";
import { liftLine } from "./lift-line";
import { NoteGatherer } from "./note-boxes";
import { type ArrangeWords, boldKinds, italicKinds, type PictureSign, WordGatherer } from "./picture-words";
import { scanMarkup } from "./scan-markup";

type Attributes = Readonly<Record<string, string>>;

const number = /^-?\d*\.?\d+(px)?$/;
const numbers = /^[-+\d.e,\s]*$/i;
const pathData = /^[-+\d.eMmLlHhVvCcSsQqTtAaZz,\s]*$/;
const transform = /^(\s*(translate|scale|rotate|matrix)\([-+\d.e,\s]*\))*\s*$/i;
const shape = {
  transform,
  "stroke-width": number,
  "stroke-linecap": /^(round|butt|square)$/,
  "stroke-linejoin": /^(round|miter|bevel)$/,
  "stroke-dasharray": numbers,
  "stroke-opacity": number,
  "fill-opacity": number,
  fill: /^none$/,
};
const textual = {
  x: number,
  y: number,
  dx: number,
  dy: number,
  "text-anchor": /^(start|middle|end)$/,
  "font-size": number,
  "font-style": /^(italic|normal|oblique)$/,
  "font-weight": /^(bold|normal)$/,
  "baseline-shift": /^(sub|super)$/,
};

/** What may come out, with the form that each attribute must have. Everything else is left out, children included. */
const allowedForms: Readonly<Record<string, Readonly<Record<string, RegExp>>>> = {
  g: { transform },
  path: { ...shape, d: pathData },
  rect: { ...shape, x: number, y: number, width: number, height: number, rx: number, ry: number },
  ellipse: { ...shape, cx: number, cy: number, rx: number, ry: number },
  circle: { ...shape, cx: number, cy: number, r: number },
  line: { ...shape, x1: number, y1: number, x2: number, y2: number },
  polygon: { ...shape, points: numbers },
  polyline: { ...shape, points: numbers },
  use: { transform, x: number, y: number, width: number, height: number },
  text: textual,
  tspan: textual,
};
const allowed: ReadonlyMap<string, ReadonlyMap<string, RegExp>> = new Map(
  Object.entries(allowedForms).map(([name, forms]) => [name, new Map(Object.entries(forms))]),
);
/** Elements without children are written short. */
const shapes = new Set(["path", "use", "rect", "ellipse", "circle", "line", "polygon", "polyline"]);

/** Elements of the engraver that carry an id of the score. */
const identified = new Set(["measure", "note", "rest", "mRest", "chord"]);
const className = /^[A-Za-z][\w-]*$/;

/** What of a picture is otherwise than the engraver has it. */
export interface PictureOptions {
  /** Whether a bar inside a system shows its number; the first of a system always does. Every bar when it is not said. */
  readonly isNumbered?: (barIndex: number) => boolean;
  /**
   * The number that a bar must show although the engraver leaves it out, as it does beside a rehearsal letter; null for a bar
   * that need not show it. None when it is not said.
   */
  readonly neededNumber?: (barIndex: number, isFirst: boolean) => string | null;
  /** A number inside a system that ends at its bar line, and leaves the room over the bar to words. */
  readonly endsAtBarLine?: (barIndex: number) => boolean;
  /** Rehearsal letters over a small staff become as large as over a full one. */
  readonly hasLargeLetters?: boolean;
  /** Keeps words apart and inside the picture. */
  readonly arrangeWords?: ArrangeWords;
}

/** Of a number that we write: its baseline over the top line and its size, as the engraver's (verovio 6.3.0) are. */
const numberRise = 243;
const numberSize = 324;
/** The players' own words over a small staff are no smaller than this. */
const leastMarkSize = 310;
/** How far before the start of the bar it ends: a letter stands there. */
const numberGap = 60;

/**
 * Turns a page of the engraver (verovio 6.3.0) that holds one system into an inert picture of it with the places of its
 * bars. Only known elements with attributes of a known form are let through, so that nothing a score says can act.
 *
 * @param barOfId index of the bar by the id of its measure.
 * @param index of the system; it keeps the glyph ids of several pictures on one page apart.
 */
export function readSystem(
  svg: string,
  index: number,
  barOfId: ReadonlyMap<string, number>,
  options: PictureOptions = {},
): EngravedSystem {
  const writer = new InertWriter(index, barOfId, options);
  scanMarkup(svg, writer);
  return writer.finish();
}

/** The same picture as another system of its score: glyph ids tell the number of the system. */
export function renumberSystem(system: EngravedSystem, index: number): EngravedSystem {
  if (system.index === index) return system;
  const [own, other] = [`s${system.index}-`, `s${index}-`];
  const svg = system.svg.replaceAll(`id="${own}`, `id="${other}`).replaceAll(`"#${own}`, `"#${other}`);
  return { ...system, index, svg };
}

class InertWriter {
  private readonly out: string[] = [];
  private readonly boxes: BarBoxReader;
  private readonly words = new WordGatherer(this.out);
  private readonly hairpins = new HairpinClearer(this.out);
  /** Only where words are arranged; nothing else asks where notes are. */
  private readonly notes: NoteGatherer | null;
  private readonly naturals = new FirstKeyNaturals();
  /** How the words that are open are set, and how deep they are. */
  private mark: { readonly style: MarkStyle; readonly depth: number } | null = null;
  /** Names of what is open; null for what is left out. */
  private readonly path: (string | null)[] = [];
  private skipped = 0;
  private textDepth = 0;
  /** How deep the open measure is; 0 when none is. */
  private measureDepth = 0;
  private hasNumber = false;
  /** The text that comes next is a number that ends at its bar line. */
  private isNumberMoved = false;
  private readonly letter: OpenLetter = { isOpen: false, bottom: 0, factor: 1, shift: 0 };
  private width = 0;
  private height = 0;

  constructor(
    private readonly index: number,
    barOfId: ReadonlyMap<string, number>,
    private readonly options: PictureOptions,
  ) {
    this.boxes = new BarBoxReader(barOfId);
    this.notes = options.arrangeWords ? new NoteGatherer() : null;
  }

  open(name: string, attributes: Attributes): void {
    if (this.skipped > 0) {
      this.skipped += 1;
      return;
    }
    if (name === "svg") this.openSvg(attributes);
    else if (name === "defs") this.out.push("<defs>");
    else if (name === "g" && this.isLeftOut(attributes)) this.skipped = 1;
    else if (this.naturals.has(name, attributes)) this.skipped = 1;
    else {
      const forms = allowed.get(name);
      if (forms) this.openAllowed(name, attributes, forms);
      else this.skipped = 1;
    }
    if (this.skipped === 0) this.path.push(name);
  }

  private isLeftOut(attributes: Attributes): boolean {
    this.isNumberMoved = false;
    if (!/\bmNum\b/.test(attributes.class ?? "")) return false;
    const { barIndex, isFirst } = this.boxes.current();
    const isLeftOut =
      barIndex !== null &&
      !isFirst &&
      this.options.isNumbered !== undefined &&
      !this.options.isNumbered(barIndex);
    if (!isLeftOut) this.hasNumber = true;
    this.isNumberMoved = barIndex !== null && !isFirst && this.options.endsAtBarLine?.(barIndex) === true;
    return isLeftOut;
  }

  /** Writes the number that the engraver has left out. */
  private addNumber(): void {
    const { barIndex, isFirst } = this.boxes.current();
    const corner = this.boxes.corner();
    const number = barIndex === null ? null : this.options.neededNumber?.(barIndex, isFirst);
    if (this.hasNumber || !number || !corner) return;
    const place = `x="${corner.x - numberGap}" y="${corner.top - numberRise}"`;
    this.out.push('<g class="mNum" font-style="italic">');
    this.words.begin("mNum", this.boxes.shift());
    this.out.push(
      `<text stroke="none" ${place} text-anchor="end" font-size="0px">`,
      `<tspan font-size="${numberSize}px">${escapeXml(number)}</tspan></text>`,
    );
    this.words.end();
    this.out.push("</g>");
  }

  /** The outer picture only says how large it is drawn; the inner one has the units of everything in it. */
  private openSvg(attributes: Attributes): void {
    if (attributes.class !== "definition-scale") return;
    const [, , width, height] = (attributes.viewBox ?? "").split(/[\s,]+/).map(Number);
    if (!width || !height)
      throw new Error(`The engraver gave a picture without a size: ${attributes.viewBox}`);
    this.width = width;
    this.height = height;
    this.out.push(pictureStart);
  }

  private openAllowed(name: string, attributes: Attributes, forms: ReadonlyMap<string, RegExp>): void {
    const classes = readClasses(attributes.class);
    this.boxes.open(name, classes, attributes);
    this.words.open(name, classes, this.boxes.shift());
    this.notes?.open(name, classes, attributes, this.boxes.shift());
    this.naturals.open(classes);
    const written: [string, string][] = [];
    if (name === "g") this.describeGroup(classes, attributes, written);
    if (name === "use") {
      written.push(["href", this.localReference(attributes)]);
      this.words.addSign(this.boxes.shift());
    }
    if (name === "text") {
      written.push(["stroke", "none"]);
      if (this.isNumberMoved) written.push(["text-anchor", "end"]);
      this.isNumberMoved = false;
    }
    if (name === "tspan" && /^(Leipzig|Bravura)/.test(attributes["font-family"] ?? "")) {
      written.push(["font-family", "Leipzig"], ["font-style", "normal"], ["font-weight", "normal"]);
      written.push(["class", "music-sign"]);
    } else if (name === "tspan") this.describeWords(attributes, written);
    const ownCount = written.length;
    for (const key of Object.keys(attributes)) {
      const value = attributes[key] ?? "";
      const isOwn = ownCount > 0 && written.some(([own]) => own === key);
      if (!isOwn && forms.get(key)?.test(value)) written.push([key, value]);
    }
    if (this.options.hasLargeLetters) enlargeLetter(this.letter, name, attributes, written);
    if (this.options.arrangeWords && shapes.has(name)) this.addShape(attributes, written);
    if (name === "text" || name === "tspan") this.textDepth += 1;
    let tag = `<${name}`;
    for (const [key, value] of written) tag += ` ${key}="${escapeXml(value)}"`;
    this.out.push(`${tag}>`);
    this.hairpins.open(name, classes, attributes, this.boxes.shift());
  }

  /** Of slurs and lines, which words keep clear of; a line over a staff stays clear of the staff itself. */
  private addShape(attributes: Attributes, written: [string, string][]): void {
    const corner = this.words.isInLine() ? this.boxes.corner() : null;
    if (corner) liftLine(attributes, corner.top, written);
    this.words.addShape(written, this.boxes.shift());
  }

  /** Family and size of the players' own words, which the engraver tells by a colour. */
  private describeWords(attributes: Attributes, written: [string, string][]): void {
    const style = readMarkStyle(attributes.fill);
    if (style) {
      this.mark = { style, depth: this.path.length };
      written.push(["font-family", style.family]);
    }
    const size = Number.parseFloat(attributes["font-size"] ?? "");
    if (!this.mark || !(size > 0)) return;
    const scaled = Math.max(Math.round(size * this.mark.style.factor), leastMarkSize);
    written.push(["font-size", `${scaled}px`]);
  }

  private describeGroup(
    classes: readonly string[],
    attributes: Attributes,
    written: [string, string][],
  ): void {
    const id = attributes.id ?? "";
    const isGlyph = this.path.at(-1) === "defs";
    if (isGlyph) written.push(["id", this.glyphId(id)]);
    else if (id !== "" && classes.some((each) => identified.has(each))) written.push(["id", id]);
    if (classes.length > 0) written.push(["class", classes.join(" ")]);
    this.letter.isOpen = classes.includes("reh");
    if (classes.includes("measure")) {
      this.measureDepth = this.path.length + 1;
      this.hasNumber = false;
    }
    if (classes.some((each) => boldKinds.has(each))) written.push(["font-weight", "bold"]);
    if (classes.some((each) => italicKinds.has(each))) written.push(["font-style", "italic"]);
  }

  /** `E050-x1y2` of the engraver, whose ending is chance. */
  private glyphId(id: string): string {
    return `s${this.index}-${id.replace(/[^A-Za-z0-9].*$/, "")}`;
  }

  private localReference(attributes: Attributes): string {
    const target = attributes.href ?? attributes["xlink:href"] ?? "";
    return target.startsWith("#") ? `#${this.glyphId(target.slice(1))}` : "#";
  }

  text(text: string): void {
    if (this.skipped === 0 && this.textDepth > 0) this.out.push(escapeXml(text));
  }

  close(name: string): void {
    if (this.skipped > 0) {
      this.skipped -= 1;
      return;
    }
    if (this.path.length === this.measureDepth) {
      this.addNumber();
      this.measureDepth = 0;
    }
    this.path.pop();
    if (name === "svg") {
      if (this.path.length > 0) this.out.push("</g>");
      return;
    }
    if (name === "text" || name === "tspan") this.textDepth -= 1;
    if (this.mark?.depth === this.path.length) this.mark = null;
    if (name === "defs") this.out.push("</defs>");
    else this.closeAllowed(name);
  }

  private closeAllowed(name: string): void {
    this.boxes.close();
    this.hairpins.close();
    this.notes?.close();
    this.naturals.close();
    const last = this.out.at(-1);
    if (shapes.has(name) && last?.startsWith(`<${name}`))
      this.out[this.out.length - 1] = `${last.slice(0, -1)}/>`;
    else this.out.push(`</${name}>`);
    this.words.close(name);
  }

  /** Where notes and staves are. */
  private music(drawn: readonly BarBox[]): PictureSign[] {
    const staves = drawn.flatMap(({ x, width, staves }) =>
      staves.map(({ top, bottom }) => ({ left: x, right: x + width, top, bottom })),
    );
    return [...(this.notes?.list() ?? []), ...staves];
  }

  finish(): EngravedSystem {
    const { width, options } = this;
    const drawn = this.boxes.list();
    const staves = {
      top: Math.min(...drawn.map(({ top }) => top)),
      bottom: Math.max(...drawn.map(({ bottom }) => bottom)),
    };
    const about = { width, height: this.height, staves, notes: this.music(drawn) };
    const { rise, fall, covered } = this.words.arrange(options.arrangeWords ?? null, about);
    this.hairpins.clear(covered);
    const bars = rise > 0 ? drawn.map((box) => lower(box, rise)) : drawn;
    const [first, last] = [bars[0], bars.at(-1)];
    if (!first || !last) throw new Error(`The engraver gave a system without bars (${this.index})`);
    const height = this.height + rise + fall;
    const picture = this.out.indexOf(pictureStart);
    if (rise > 0) this.out[picture] = pictureStart.replace("<g", `<g transform="translate(0, ${rise})"`);
    const inner = this.out.join("");
    return {
      index: this.index,
      width,
      height,
      firstBarIndex: first.barIndex,
      lastBarIndex: last.barIndex,
      bars,
      svg: `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" class="system">${inner}</svg>`,
    };
  }
}

const pictureStart = '<g fill="currentColor" stroke="currentColor">';

function lower(box: BarBox, by: number): BarBox {
  const staves = box.staves.map(({ top, bottom }) => ({ top: top + by, bottom: bottom + by }));
  return { ...box, top: box.top + by, bottom: box.bottom + by, staves };
}

const noClasses: readonly string[] = [];

function readClasses(text: string | undefined): readonly string[] {
  return text ? text.split(/\s+/).filter((each) => className.test(each)) : noClasses;
}

const escapes: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

function escapeXml(text: string): string {
  if (!/[&<>"]/.test(text)) return text;
  return text.replace(/[&<>"]/g, (found) => escapes[found] ?? found);
}
