import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { childrenNamed } from "@/lib/musicxml/xml-tree";
import { assignRoles } from "@/lib/score/assign-roles";
import type { Score } from "@/lib/score/score";
import type { EngraveLayout } from "../engrave-layout";
import { LineEngraver, type LineOptions } from "../engrave-lines";
import type { PrintedBar } from "../pages/laid-out-edition";
import type { PageLayoutInput } from "../pages/lay-out-pages";
import { type Paging, singlePages } from "../pages/paging";
import { readTurns } from "../pages/turns-of-print";
import type { PictureOptions } from "../picture/inert-svg";
import type { ArrangeWords } from "../picture/picture-words";
import type { Engraver } from "../toolkit";
import { signsOfWords } from "../word-chains";
import {
  type EditionMusic,
  findNumberedBars,
  findWantedBreaks,
  readEditionSource,
  takePrintedMusic,
} from "./edition-music";
import { pageShapes, sidesOf } from "./page-shape";
import type { PrintInput } from "./print-input";
import { type PrintOptions, staffMillimetres } from "./print-options";

const pointsPerMillimetre = 72 / 25.4;
/** Of the solo part over the reduction, in percent. */
const soloStaffSize = 70;
/** Of cue notes beside the soloist's own: at three quarters, the engraver's usual, they are taken for notes to be played. */
const leadInSize = 0.6;
/** Least distance of two systems, in points. */
const systemGap = 10;

/** An edition that is ready to be laid out on pages. */
export interface EditionPages {
  readonly layout: PageLayoutInput;
  /** As printed, in order. */
  readonly bars: readonly PrintedBar[];
  /** Width of a system in points. */
  readonly width: number;
}

/**
 * Prepares an edition for its pages: what is engraved, the room on the paper, what each turn would ask of the reader.
 *
 * @param page.firstTop where music may start on page 1, in points from the top.
 * @param page.arrangeWords keeps words apart as wide as they are printed; the engraver's places when it is not said.
 * @param onProgress from 0 to 1; it begins again when the music is engraved a second time.
 */
export function prepareEdition(
  toolkit: Engraver["toolkit"],
  input: PrintInput,
  { firstTop, arrangeWords }: { readonly firstTop: number; readonly arrangeWords?: ArrangeWords },
  onProgress: (done: number) => void,
): EditionPages {
  const source = readEditionSource(input.sourceMusicXml);
  const score = assignRoles(scoreFromTree(source).score, input.partRoles);
  const music = takePrintedMusic(source, score, input);
  const bars = barsOf(music, score);
  const pinnedBars = findPinned(score, bars, input.pinnedBars ?? []);
  const wantedBars = [...findWantedBreaks(music), ...pinnedBars];
  const { reader } = input.options;
  const shape = pageShapes[input.options.paper];
  const width = shape.width - 2 * shape.side;
  const pictures = { ...picturesOf(music), ...(arrangeWords && { arrangeWords }) };
  const signs = signsOfWords(music.tree);
  const lines = lineEngraver(toolkit, input, music, { wantedBreaks: wantedBars, pictures, onProgress });
  const layout: PageLayoutInput = {
    engrave: (lineBreaks) => (lineBreaks ? lines.inLines(lineBreaks) : lines.inOwnLines()),
    isSketch: () => lines.isSketch,
    heightOf: (system) => (system.height * width) / system.width,
    room: { firstTop, top: shape.top, bottom: shape.height - shape.foot, gap: systemGap },
    paging: pagingOf(input.options),
    turnsBefore: readTurns({
      score,
      cuts: input.cuts,
      tempo: input.tempo ?? {},
      reader,
      barIds: bars.map(({ id }) => id),
    }),
    pinnedBars,
    wantedBars,
    signsAt: (barIndex) => signs[barIndex] ?? 0,
  };
  return { layout, bars, width };
}

function pagingOf(options: PrintOptions): Paging {
  const sides = sidesOf(options);
  if (sides === "single") return singlePages;
  return { sides: "double", firstPage: sides === "facing-right" ? "right" : "left" };
}

const measuresOf = ({ tree }: EditionMusic) => childrenNamed(tree.parts[0] ?? tree.root, "measure");

function barsOf(music: EditionMusic, score: Score): PrintedBar[] {
  const places = new Map(score.bars.map(({ id, index }) => [id, index]));
  return measuresOf(music).map(({ attributes: { id = "", number = "" } }) => ({
    ...{ id, label: number },
    sourceIndex: places.get(id) ?? 0,
  }));
}

/** Pinned bars as printed. One that a cut takes pins nothing, and the first bar begins a page anyway. */
function findPinned(score: Score, printed: readonly PrintedBar[], pinned: readonly number[]): number[] {
  const ids = new Set(pinned.map((barIndex) => score.bars[barIndex]?.id));
  return printed.flatMap(({ id }, index) => (index > 0 && ids.has(id) ? [index] : []));
}

function layoutFor({ options }: PrintInput): EngraveLayout {
  const { reader, paper, staff, marks } = options;
  const { width, side } = pageShapes[paper];
  const staffPoints = staffMillimetres[staff] * pointsPerMillimetre;
  return {
    systemUnits: ((width - 2 * side) / staffPoints) * 8,
    spacing: 0.6,
    barNumbers: "every-bar",
    firstLabels: reader === "pianist" ? "full" : "short",
    takesWantedBreaks: true,
    fillsLastSystem: false,
    ...(reader === "soloist" && marks.includes("lead-ins") && { smallNotes: leadInSize }),
  };
}

function picturesOf(music: EditionMusic): PictureOptions {
  const numbered = findNumberedBars(music);
  const atJoin = new Set(music.joins.map(({ cutBarIndex }) => cutBarIndex));
  const labels = measuresOf(music).map(({ attributes }) => attributes.number ?? "");
  return {
    hasLargeLetters: true,
    isNumbered: (barIndex) => numbered.has(barIndex),
    // At a join "Vi–" and "–de" stand on both sides of it.
    endsAtBarLine: (barIndex) => !atJoin.has(barIndex),
    // The pickup at the start needs none.
    neededNumber: (barIndex, isFirst) =>
      barIndex > 0 && (isFirst || atJoin.has(barIndex)) ? (labels[barIndex] ?? null) : null,
  };
}

/** Engraves the music in the engraver's own lines, and in others as often as they are given. */
function lineEngraver(
  toolkit: Engraver["toolkit"],
  input: PrintInput,
  music: EditionMusic,
  options: Pick<LineOptions, "wantedBreaks" | "pictures" | "onProgress">,
): LineEngraver {
  const solo = music.tree.parts.find((part) => input.partRoles[part.attributes.id ?? ""] === "solo");
  const isSmall = input.options.reader === "pianist" && music.tree.parts.length > 1;
  const staffSizes = isSmall && solo ? { [solo.attributes.id ?? ""]: soloStaffSize } : {};
  const condensesRests = input.options.reader === "soloist";
  return new LineEngraver(toolkit, music.tree, layoutFor(input), { ...options, staffSizes, condensesRests });
}
