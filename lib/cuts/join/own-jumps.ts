import { isEqualQuarters, noQuarters } from "@/lib/score/quarters";
import type { Side } from "./side";
import type { SideHearer } from "./side-hearer";

export type JumpKind = "top" | "level" | "centroid" | "parts";

/** How far it is from one side to the other; null where a side is silent or has no level. */
export function jumpBetween(kind: JumpKind, before: Side, after: Side): number | null {
  if (kind === "parts") {
    const all = before.lanes | after.lanes;
    return all === 0 ? null : Math.abs(countLanes(before.lanes) - countLanes(after.lanes)) / countLanes(all);
  }
  const value = heightOf(kind, after) - heightOf(kind, before);
  return Number.isNaN(value) ? null : Math.abs(value);
}

function heightOf(kind: Exclude<JumpKind, "parts">, side: Side): number {
  if (kind === "top") return side.pitches.at(-1) ?? Number.NaN;
  return kind === "level" ? side.level : side.centroid;
}

function countLanes(bits: number): number {
  let count = 0;
  for (let rest = bits >>> 0; rest > 0; rest &= rest - 1) count += 1;
  return count;
}

/** How far the piece itself jumps at its bar lines. */
export class OwnJumps {
  private readonly jumps = new Map<JumpKind, readonly number[]>();

  constructor(private readonly hearer: SideHearer) {}

  /** Share of the piece's own bar lines with as large a jump or a larger one, 0 to 1. */
  shareAsLarge(kind: JumpKind, jump: number): number {
    const own = this.own(kind);
    return own.length === 0 ? 0 : own.filter((other) => other >= jump - 1e-9).length / own.length;
  }

  private own(kind: JumpKind): readonly number[] {
    const known = this.jumps.get(kind);
    if (known) return known;
    const found = this.hearer.score.bars.flatMap((bar) => {
      const position = { barIndex: bar.index, offset: noQuarters };
      if (bar.isPickup || !isEqualQuarters(bar.length, bar.metreLength)) return [];
      const [before, after] = [this.hearer.before(position), this.hearer.after(position)];
      const jump = before && after ? jumpBetween(kind, before, after) : null;
      return jump === null ? [] : [jump];
    });
    this.jumps.set(kind, found);
    return found;
  }
}
