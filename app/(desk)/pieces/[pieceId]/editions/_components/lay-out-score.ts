import type { OnScore, SideCut } from "@/app/_data/editions/editions-view";
import type { EngravedSystem } from "@/app/_ui/score/engraving";
import type { BarSpan } from "@/app/_ui/score/mark-bars";
import { cutOnSystem } from "@/app/_ui/score/score-cut";

/** What lies over a part of a system, in parts of its width from its left edge. */
export interface OverSystem {
  readonly left: number;
  readonly width: number;
  readonly text: string;
}

/** A fold over bars that a side does not play. */
export interface Fold extends OverSystem {
  /** The cut begins, or ends, within this system. */
  readonly isStart: boolean;
  readonly isEnd: boolean;
}

/** One system as one side plays it. `isFolded`: nothing of it is played, `text` says why. */
export interface SideOfSystem {
  readonly isFolded: boolean;
  readonly text: string;
  readonly folds: readonly Fold[];
  /** Over bars that this side plays and the other does not, and over what is written on one side. */
  readonly brackets: readonly OverSystem[];
}

export type ComparedRow =
  | {
      readonly kind: "system";
      readonly system: EngravedSystem;
      readonly earlier: SideOfSystem;
      readonly later: SideOfSystem;
    }
  /** Systems of which neither side plays anything, or that lie between the ends of a long difference. */
  | ({ readonly kind: "neither" | "between"; readonly count: number } & BarSpan);

/** What is written by one side only, over these bars. */
export interface Written extends BarSpan {
  readonly earlier: string;
  readonly later: string;
}

/** What the rows are made from. */
export interface ScorePlace {
  readonly onScore: Pick<OnScore, "earlier" | "later" | "differing">;
  readonly names: { readonly earlier: string; readonly later: string };
  readonly written: readonly Written[];
  /** The bars of the chosen difference. */
  readonly bars: BarSpan;
  /** Show also the lines in the middle of a long difference. */
  readonly isWhole: boolean;
}

/** Bars shown before and after a difference, at least. */
const nearBars = 2;
/** Of a long difference so many systems are shown at each end; those between are folded. */
const shownAtEnd = 2;
/** Fewer systems between are not worth a fold. */
const leastBetween = 2;

/**
 * The systems around a difference, each as either side plays it. Both are drawn from one engraving of the print, so that
 * a bar stands at the same place in both, and its number is that of the print; what a side does not play is folded there.
 */
export function layOutScore(systems: readonly EngravedSystem[], place: ScorePlace): ComparedRow[] {
  const { firstBar, lastBar } = place.bars;
  const near = systems.filter(
    (system) => system.lastBarIndex >= firstBar - nearBars && system.firstBarIndex <= lastBar + nearBars,
  );
  const rows = near.map((system): ComparedRow => {
    const [earlier, later] = [sideOf(system, place, "earlier"), sideOf(system, place, "later")];
    if (earlier.isFolded && later.isFolded) return gather("neither", [system]);
    return { kind: "system", system, earlier, later };
  });
  return foldMiddle(joinNeither(rows), place);
}

function gather(kind: "neither" | "between", systems: readonly EngravedSystem[]): ComparedRow {
  const [first, last] = [systems[0], systems.at(-1)];
  return {
    ...{ kind, count: systems.length },
    firstBar: first?.firstBarIndex ?? 0,
    lastBar: last?.lastBarIndex ?? 0,
  };
}

function joinNeither(rows: readonly ComparedRow[]): ComparedRow[] {
  const joined: ComparedRow[] = [];
  for (const row of rows) {
    const last = joined.at(-1);
    if (row.kind === "neither" && last?.kind === "neither")
      joined[joined.length - 1] = { ...last, lastBar: row.lastBar, count: last.count + row.count };
    else joined.push(row);
  }
  return joined;
}

/** The middle of a long difference as one line: the lines round it and at its ends stay. */
function foldMiddle(rows: readonly ComparedRow[], { bars, isWhole }: ScorePlace): ComparedRow[] {
  const isIn = (row: ComparedRow) => {
    const { firstBar, lastBar } = barsOfRow(row);
    return lastBar >= bars.firstBar && firstBar <= bars.lastBar;
  };
  const start = rows.findIndex(isIn) + shownAtEnd;
  const end = rows.findLastIndex(isIn) + 1 - shownAtEnd;
  const between = rows.slice(start, end);
  const [first, last] = [between[0], between.at(-1)];
  if (isWhole || !first || !last || between.length < leastBetween) return [...rows];
  const folded: ComparedRow = {
    kind: "between",
    count: between.reduce((sum, row) => sum + (row.kind === "system" ? 1 : row.count), 0),
    firstBar: barsOfRow(first).firstBar,
    lastBar: barsOfRow(last).lastBar,
  };
  return [...rows.slice(0, start), folded, ...rows.slice(end)];
}

function barsOfRow(row: ComparedRow): BarSpan {
  if (row.kind !== "system") return row;
  return { firstBar: row.system.firstBarIndex, lastBar: row.system.lastBarIndex };
}

function sideOf(system: EngravedSystem, place: ScorePlace, side: "earlier" | "later"): SideOfSystem {
  const cuts = place.onScore[side];
  const folds = cuts.flatMap((cut) => foldOf(system, cut, place.names[side]));
  const isFolded = system.bars.every(({ barIndex }) => cuts.some((cut) => takesWhole(cut, barIndex)));
  return {
    isFolded,
    text: folds.map(({ text }) => text).join("; "),
    folds,
    brackets: isFolded ? [] : [...onlyHere(system, place, side), ...writtenHere(system, place, side)],
  };
}

function takesWhole({ firstBar, lastBar, from, to }: SideCut, bar: number): boolean {
  if (bar < firstBar || bar > lastBar) return false;
  const startsInside = bar === from.barIndex && from.part > 0;
  const endsInside = bar === to.barIndex && to.part < 1;
  return !startsInside && !endsInside;
}

function foldOf(system: EngravedSystem, cut: SideCut, side: string): Fold[] {
  const on = cutOnSystem(system, { ...cut, number: null, state: "agreed", ink: "graphite", says: null });
  const [first, last] = [on?.boxes[0], on?.boxes.at(-1)];
  if (!on || !first || !last) return [];
  return [
    {
      ...overPart(system, first.x, last.x + last.width),
      text: `${cut.name} cut ${side}`,
      isStart: on.startX !== null,
      isEnd: on.endX !== null,
    },
  ];
}

function overPart({ width }: EngravedSystem, from: number, to: number) {
  return { left: from / width, width: (to - from) / width };
}

function overBars(system: EngravedSystem, { firstBar, lastBar }: BarSpan, text: string): OverSystem[] {
  const boxes = system.bars.filter(({ barIndex }) => barIndex >= firstBar && barIndex <= lastBar);
  const [first, last] = [boxes[0], boxes.at(-1)];
  return first && last ? [{ ...overPart(system, first.x, last.x + last.width), text }] : [];
}

function onlyHere(system: EngravedSystem, place: ScorePlace, side: "earlier" | "later"): OverSystem[] {
  return place.onScore.differing.flatMap(({ playedBy, ...bars }) => {
    if (playedBy === "both") return overBars(system, bars, "not the same beats");
    return playedBy === side ? overBars(system, bars, `only ${place.names[side]}`) : [];
  });
}

function writtenHere(system: EngravedSystem, place: ScorePlace, side: "earlier" | "later"): OverSystem[] {
  return place.written.flatMap((one) => overBars(system, one, one[side]));
}
