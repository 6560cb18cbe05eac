import type { EngravedSystem } from "./engraving";

/** The bars that a cut touches, by index, both included. */
export interface Foldable {
  readonly id: string;
  readonly firstBar: number;
  readonly lastBar: number;
}

/** A system, or the piece of one that a fold leaves. */
export interface SystemRow {
  readonly kind: "system";
  readonly system: EngravedSystem;
  readonly firstBar: number;
  readonly lastBar: number;
  /** What is shown of the drawing, in its units; the whole when nothing of it is folded. */
  readonly x: number;
  readonly width: number;
}

export interface FoldRow<Cut extends Foldable> {
  readonly kind: "fold";
  readonly cut: Cut;
  readonly firstBar: number;
  readonly lastBar: number;
}

/** A fold keeps this many bars at each end. Source: design notes. */
const keptBars = 2;
/** Fewer hidden bars are not worth a fold. */
const leastHidden = 2;

/** The bars that a fold of this cut hides; null when it is too short. */
function hiddenBars<Cut extends Foldable>(cut: Cut): FoldRow<Cut> | null {
  const firstBar = cut.firstBar + keptBars;
  const lastBar = cut.lastBar - keptBars;
  return lastBar - firstBar + 1 >= leastHidden ? { kind: "fold", cut, firstBar, lastBar } : null;
}

/**
 * The score as rows from the top down, with the inside of each cut folded away.
 *
 * @param cuts in written order and apart.
 */
export function foldRows<Cut extends Foldable>(
  systems: readonly EngravedSystem[],
  cuts: readonly Cut[],
): (SystemRow | FoldRow<Cut>)[] {
  const folds = cuts.map(hiddenBars).filter((fold) => fold !== null);
  const rows: (SystemRow | FoldRow<Cut>)[] = [];
  const placed = new Set<FoldRow<Cut>>();
  for (const system of systems) {
    let piece: number[] = [];
    const close = () => {
      const row = pieceRow(system, piece);
      if (row) rows.push(row);
      piece = [];
    };
    for (const { barIndex } of system.bars) {
      const fold = folds.find(({ firstBar, lastBar }) => barIndex >= firstBar && barIndex <= lastBar);
      if (!fold) {
        piece.push(barIndex);
        continue;
      }
      close();
      if (!placed.has(fold)) rows.push(fold);
      placed.add(fold);
    }
    close();
  }
  return rows;
}

function pieceRow(system: EngravedSystem, bars: readonly number[]): SystemRow | null {
  const boxes = system.bars.filter(({ barIndex }) => bars.includes(barIndex));
  const [first, last] = [boxes[0], boxes.at(-1)];
  if (!first || !last) return null;
  const x = first === system.bars[0] ? 0 : first.x;
  const end = last === system.bars.at(-1) ? system.width : last.x + last.width;
  return { kind: "system", system, firstBar: first.barIndex, lastBar: last.barIndex, x, width: end - x };
}

/** Every system as it is. */
export function plainRows(systems: readonly EngravedSystem[]): SystemRow[] {
  return systems.map((system) => ({
    kind: "system",
    system,
    firstBar: system.firstBarIndex,
    lastBar: system.lastBarIndex,
    x: 0,
    width: system.width,
  }));
}
