import { engraverVersion } from "../engraver-version";
import type {
  EditionPage,
  LaidOutEdition,
  PageWords,
  PlacedPicture,
  PrintedBar,
} from "../pages/laid-out-edition";
import { layOutPages, type PageLayout } from "../pages/lay-out-pages";
import { describeTurn, type PageTurn } from "../pages/page-turn";
import type { EngravedSystem } from "../screen-engraving";
import type { Engraver } from "../toolkit";
import { fitWords } from "./fit-words";
import { pageShapes } from "./page-shape";
import { placeSystems } from "./place-systems";
import { placedLately } from "./placed-lately";
import { type EditionPages, prepareEdition } from "./prepare-edition";
import type { PrintFonts } from "./print-fonts";
import type { PrintInput } from "./print-input";
import { insideLine, layFooter, layTitleBlock } from "./title-block";
import { TypeSetter } from "./type-setter";

/** Baseline of the sign for a turn, under the last line of music, in points. */
const signBelow = 8;
/** Between it and the words of the foot under it; how far before their end it stands where there is not so much. */
const signRoom = 10;
const signAside = 64;

/**
 * Engraves an edition and lays it out on its pages: where each system stands, the title, the foot, and what each turn
 * asks of the reader. To be run in the thread that engraves, which remembers the last ones. See `layOutEdition` and
 * `printEdition`.
 *
 * @param onProgress from 0 to 1.
 */
export function placeEdition(
  toolkit: Engraver["toolkit"],
  fonts: PrintFonts,
  input: PrintInput,
  onProgress: (done: number) => void,
): LaidOutEdition {
  const placed = placedLately(input, () => place(toolkit, fonts, input, onProgress));
  onProgress(1);
  return placed;
}

function place(
  toolkit: Engraver["toolkit"],
  fonts: PrintFonts,
  input: PrintInput,
  onProgress: (done: number) => void,
): LaidOutEdition {
  const type = new TypeSetter(fonts);
  const shape = pageShapes[input.options.paper];
  const title = layTitleBlock(type, shape, input.titleBlock, namePart(input));
  const edition = prepareEdition(
    toolkit,
    input,
    { firstTop: title.bottom, arrangeWords: fitWords(fonts) },
    engravingProgress(onProgress),
  );
  const layout = layOutPages(edition.layout);
  const turns = describeTurns(layout, edition.bars);
  const placed = placeOnPages(edition, layout, shape.side);
  const pages = placed.map((systems, index): EditionPage => {
    const number = index + 1;
    const turn = turns.find(({ page }) => page === number) ?? null;
    const footer = layFooter(type, shape, input.titleBlock, number, placed.length);
    const sign = turn && laySign(turn, systems.at(-1), edition.layout.room.bottom, footer);
    return {
      ...{ number, systems, turn },
      head: index === 0 ? title.words : [],
      foot: sign ? [sign, footer] : [footer],
    };
  });
  const { width, height } = shape;
  return { width, height, pages, bars: edition.bars, rendererVersion: engraverVersion };
}

function namePart({ options, titleBlock }: PrintInput): string {
  const solo = titleBlock.soloInstrument ?? "Solo";
  return options.reader === "pianist" ? `Piano, with ${insideLine(solo)}` : solo;
}

/** The first engraving takes three fifths of the time; a second, with chosen lines, the rest. Never goes back. */
function engravingProgress(onProgress: (progress: number) => void): (done: number) => void {
  let [base, share, last] = [0, 0.6, 0];
  return (done) => {
    if (done < last) [base, share] = [0.6, 0.4];
    last = done;
    onProgress(base + share * done);
  };
}

function describeTurns({ turns }: PageLayout, bars: readonly PrintedBar[]): PageTurn[] {
  return turns.map(({ pageIndex, barIndex, moments }) => {
    const { id = "", label = "" } = bars[barIndex] ?? {};
    return describeTurn({ page: pageIndex + 1, barId: id, barLabel: label }, moments);
  });
}

function placeOnPages(
  { layout, bars, width }: EditionPages,
  { systems, counts }: PageLayout,
  side: number,
): PlacedPicture[][] {
  const { heightOf, room } = layout;
  return placeSystems(systems.map(heightOf), counts, room).map((page) =>
    page.flatMap(({ index, y }): PlacedPicture[] => {
      const system = systems[index];
      if (!system) return [];
      const [firstBar, lastBar] = endBars(system, bars);
      const alt =
        firstBar.label === lastBar.label
          ? `Bar ${firstBar.label}`
          : `Bars ${firstBar.label} to ${lastBar.label}`;
      return [{ x: side, y, width, height: heightOf(system), alt, firstBar, lastBar, system }];
    }),
  );
}

const noBar: PrintedBar = { id: "", label: "", sourceIndex: 0 };

function endBars(
  { firstBarIndex, lastBarIndex }: EngravedSystem,
  bars: readonly PrintedBar[],
): [PrintedBar, PrintedBar] {
  return [bars[firstBarIndex] ?? noBar, bars[lastBarIndex] ?? noBar];
}

/**
 * "V.S." or "time", where the eye is when the page ends: under the end of its last line, before the words of the foot where
 * there is no room between.
 */
function laySign(
  { sign }: PageTurn,
  last: PlacedPicture | undefined,
  bottom: number,
  footer: PageWords,
): PageWords | null {
  if (sign === null || !last) return null;
  const below = Math.min(last.y + last.height, bottom) + signBelow;
  const [count] = footer.items.flatMap((item) =>
    item.kind === "text" && item.style.align === "right" ? item : [],
  );
  const isTight = count !== undefined && below > count.y - signRoom;
  const face = sign === "V.S." ? "serif-bold-italic" : "serif-italic";
  const style = { face, size: 11, align: "right" } as const;
  const x = last.x + last.width - (isTight ? signAside : 0);
  return { tag: "P", items: [{ kind: "text", text: sign, x, y: isTight ? count.y : below, style }] };
}
