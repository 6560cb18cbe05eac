const svgSpace = "http://www.w3.org/2000/svg";

/** What of a system is drawn, in its units. */
export interface SystemWindow {
  readonly x: number;
  readonly width: number;
  readonly height: number;
  /** Places within the system (from 0) of the first and the last bar that are shown. */
  readonly firstPlace: number;
  readonly lastPlace: number;
  /** Width of the clefs and keys that are repeated in front; 0 for none. */
  readonly head: number;
}

function placed(drawing: SVGSVGElement, attributes: Readonly<Record<string, string>>): SVGSVGElement {
  const shown = document.importNode(drawing, true);
  for (const [name, value] of Object.entries(attributes)) shown.setAttribute(name, value);
  return shown;
}

/** Hidden, and still there to be measured. */
function hide(element: Element): void {
  element.setAttribute("visibility", "hidden");
}

/** The clefs and keys at the start of the system, and nothing after them. */
function headOf(drawing: SVGSVGElement, { x, height, head }: SystemWindow): SVGSVGElement {
  const attributes = { x: `${x - head}`, width: `${head}`, height: `${height}`, overflow: "hidden" };
  const shown = placed(drawing, { ...attributes, viewBox: `0 0 ${head} ${height}` });
  for (const number of shown.querySelectorAll(".mNum, .tempo, .dir, .reh, .dynam")) hide(number);
  return shown;
}

/** The bars that are shown, whole: what stands out of them over their edges stays. */
function bodyOf(
  drawing: SVGSVGElement,
  { x, width, height, firstPlace, lastPlace }: SystemWindow,
): SVGSVGElement {
  const attributes = { x: `${x}`, width: `${width}`, height: `${height}`, overflow: "visible" };
  const shown = placed(drawing, { ...attributes, viewBox: `${x} 0 ${width} ${height}` });
  for (const [place, bar] of shown.querySelectorAll("g.measure").entries()) {
    if (place < firstPlace || place > lastPlace) hide(bar);
  }
  if (firstPlace > 0) for (const sign of shown.querySelectorAll(atStart)) hide(sign);
  return shown;
}

/** A system, or the part of it in the window, as one drawing: the head if there is one, then the body. */
export function composeSystem(drawing: SVGSVGElement, window: SystemWindow): SVGSVGElement {
  const { x, width, height, head } = window;
  const whole = document.createElementNS(svgSpace, "svg");
  whole.setAttribute("viewBox", `${x - head} 0 ${width + head} ${height}`);
  if (head > 0) whole.append(headOf(drawing, window));
  whole.append(bodyOf(drawing, window));
  return whole;
}

/**
 * What the engraver (verovio 6.3.0) draws at the start of a system and not in a bar: names, braces, and slurs and wedges
 * that go on from the system before.
 */
const atStart = ".label, .labelAbbr, .grpSym, .spanning";
const signs = ".clef, .keySig, .meterSig";
const sounding = ".note, .rest, .mRest, .multiRest";
/** Between the head and the first bar that is shown, in units of the drawing. */
const afterHead = 160;

/**
 * How wide the clefs and keys at the start of a system are, its braces and names included, when they still hold for the
 * bar at `firstPlace`; 0 when a clef or key changes before it.
 *
 * @param body a system in the page, drawn in its own units.
 */
export function measureHead(body: SVGSVGElement, firstPlace: number): number {
  const bars = [...body.querySelectorAll("g.measure")];
  const [first, ...between] = bars.slice(0, firstPlace);
  if (!first || between.some((bar) => bar.querySelector(".clef, .keySig"))) return 0;
  const firstNote = Math.min(
    ...[...first.querySelectorAll(sounding)].map((note) => unitsOf(body, note).left),
  );
  const ends = [...first.querySelectorAll(signs)].map((sign) => unitsOf(body, sign).right);
  if (ends.length === 0 || Math.max(...ends) > firstNote) return 0;
  return Math.max(...ends) + afterHead;
}

/** Where the head of a note is drawn, in units of the drawing. */
export interface NoteBox {
  readonly id: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
}

/** The notes of a system in the page, from left to right; of a chord each note, the highest first where they stand together. */
export function measureNotes(body: SVGSVGElement): NoteBox[] {
  const matrix = body.getScreenCTM()?.inverse();
  if (!matrix) return [];
  const boxes = [...body.querySelectorAll("g.note[id]")].map((note): NoteBox => {
    const { left, right, top } = (note.querySelector(".notehead") ?? note).getBoundingClientRect();
    const x = (at: number) => at * matrix.a + matrix.e;
    return { id: note.id, left: x(left), right: x(right), top: top * matrix.d + matrix.f };
  });
  return boxes.sort((a, b) => a.left - b.left || a.top - b.top);
}

function unitsOf(body: SVGSVGElement, element: Element): { left: number; right: number } {
  const matrix = body.getScreenCTM()?.inverse();
  const { left, right } = element.getBoundingClientRect();
  if (!matrix) return { left: 0, right: 0 };
  return { left: left * matrix.a + matrix.e, right: right * matrix.a + matrix.e };
}
