import type { EngravedSystem } from "../screen-engraving";
import type { TurnMoment } from "./assess-turn";
import type { PageRoom } from "./page-room";
import { costOf } from "./page-turn";
import { isTurned, type Paging } from "./paging";
import { planBreaks } from "./plan-breaks";
import { findSystemChoices, readSpacing } from "./system-choices";
import { turnSeconds } from "./turn-strain";

export interface PageLayoutInput {
  /** Engraves the music: with the engraver's own line breaks, or with a line beginning at each of these bars and no other. */
  readonly engrave: (lineBreaks: readonly number[] | null) => readonly EngravedSystem[];
  /** Whether the engraver's own lines were only sketched: good enough to plan with, to be engraved again if they stand. */
  readonly isSketch?: () => boolean;
  /** In points. */
  readonly heightOf: (system: EngravedSystem) => number;
  readonly room: PageRoom;
  readonly paging: Paging;
  /** The turns that a page break before a bar brings about. */
  readonly turnsBefore: (barIndex: number) => readonly TurnMoment[];
  /** Bars that begin a page: somebody decided so. */
  readonly pinnedBars: readonly number[];
  /** Bars that begin a line when there is a choice. */
  readonly wantedBars: readonly number[];
  /** How many signs the longest line of words in a bar has; none when it is not said. */
  readonly signsAt?: (barIndex: number) => number;
}

/** Two pages that follow each other, the first of which is turned. */
export interface PlannedTurn {
  /** Of the page that is turned, from 0. */
  readonly pageIndex: number;
  /** The first bar of the next page, in the score that was engraved. */
  readonly barIndex: number;
  readonly moments: readonly TurnMoment[];
}

export interface PageLayout {
  readonly systems: readonly EngravedSystem[];
  /** How many of the systems stand on each page. */
  readonly counts: readonly number[];
  readonly turns: readonly PlannedTurn[];
  readonly cost: number;
}

/** What other lines than the engraver's must save at least: a turn made quick instead of easy, or a page. */
const worthOtherLines = 10;

/**
 * Lays music out on pages so that they are turned where a hand is free. The engraver's own lines are kept when that is
 * possible with them; otherwise lines are chosen together with the pages over its spacing of the bars, the music is
 * engraved again in these lines, and the pages are planned once more with their true heights. These lines stand when they
 * save enough.
 *
 * @throws RangeError if a pinned bar can begin no page, because it is not drawn.
 */
export function layOutPages(input: PageLayoutInput): PageLayout {
  const own = input.engrave(null);
  const plain = planPages(input, own);
  if (plain && !plain.turns.some(isHard)) return drawWhole(input, plain);
  const lines = chooseLines(input, own);
  const chosen = lines.join() === startsOf(own).join() ? null : planPages(input, input.engrave(lines));
  const best = plain && chosen && plain.cost < chosen.cost + worthOtherLines ? plain : (chosen ?? plain);
  if (!best) throw new RangeError(`No page can begin with each of the bars ${input.pinnedBars.join(", ")}`);
  return best === plain ? drawWhole(input, best) : best;
}

/** Pages over the engraver's own lines as they are printed, if they were sketched before. */
function drawWhole(input: PageLayoutInput, sketched: PageLayout): PageLayout {
  if (!input.isSketch?.()) return sketched;
  return planPages(input, input.engrave(startsOf(sketched.systems))) ?? sketched;
}

const isHard = ({ moments }: PlannedTurn): boolean =>
  moments.some(({ freeSeconds }) => freeSeconds < turnSeconds);

const startsOf = (systems: readonly EngravedSystem[]): number[] =>
  systems.slice(1).map(({ firstBarIndex }) => firstBarIndex);

/** Pages over systems as they are; null when a pinned bar stands inside one. */
function planPages(input: PageLayoutInput, systems: readonly EngravedSystem[]): PageLayout | null {
  const starts = systems.map(({ firstBarIndex }) => firstBarIndex);
  const pins = input.pinnedBars.map((bar) => starts.indexOf(bar));
  if (pins.includes(-1)) return null;
  const heights = systems.map(input.heightOf);
  const { pages, cost } = planBreaks({
    unitCount: systems.length,
    choicesFrom: (unit) => [{ end: unit + 1, height: heights[unit] ?? 0, cost: 0 }],
    room: input.room,
    paging: input.paging,
    turnCost: (unit) => costOf(input.turnsBefore(starts[unit] ?? 0)),
    pins: new Set(pins),
  });
  const turns = pages.slice(1).flatMap(([first], pageIndex): PlannedTurn[] => {
    const barIndex = starts[first?.start ?? 0] ?? 0;
    return isTurned(pageIndex, input.paging)
      ? [{ pageIndex, barIndex, moments: input.turnsBefore(barIndex) }]
      : [];
  });
  return { systems, counts: pages.map((page) => page.length), turns, cost };
}

/** The bars with which lines begin, but for the first, when lines and pages are chosen together. */
function chooseLines(input: PageLayoutInput, systems: readonly EngravedSystem[]): number[] {
  const music = readSpacing(systems, input.heightOf, input.signsAt);
  const places = (bars: readonly number[]) =>
    new Set(bars.flatMap((bar) => music.bars.findIndex(({ barIndex }) => barIndex === bar)));
  const pins = places(input.pinnedBars);
  const { pages } = planBreaks({
    unitCount: music.bars.length,
    choicesFrom: findSystemChoices(music, pins, places(input.wantedBars)),
    room: input.room,
    paging: input.paging,
    turnCost: (unit) => costOf(input.turnsBefore(music.bars[unit]?.barIndex ?? 0)),
    pins,
  });
  return pages
    .flat()
    .slice(1)
    .map(({ start }) => music.bars[start]?.barIndex ?? 0);
}
