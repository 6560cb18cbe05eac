import type { Bar } from "./bar";
import type { Notice } from "./notice";

function notice(kind: string, sentence: string, barLabel: string): Notice {
  return { kind, sentence, partName: null, barLabel };
}

/** The bar marked with the same name, or, when names do not pair, the only one marked at all. */
function findMarked(bars: readonly Bar[], mark: "segno" | "coda", name: string): number | null {
  const marked = bars.filter((bar) => bar.jumps[mark] !== null);
  const same = marked.find((bar) => bar.jumps[mark] === name);
  return (same ?? (marked.length === 1 ? marked[0] : undefined))?.index ?? null;
}

/** Where the bars' D.C. and D.S. lead, by the index of the bar that carries the sign, and where "to coda" does. */
export interface JumpTargets {
  readonly back: ReadonlyMap<number, number>;
  readonly toCoda: ReadonlyMap<number, number>;
  readonly notices: readonly Notice[];
}

/** Pairs the jump signs with their targets; a sign without its target is ignored and becomes a notice. */
export function findJumpTargets(bars: readonly Bar[]): JumpTargets {
  const back = new Map<number, number>();
  const toCoda = new Map<number, number>();
  const notices: Notice[] = [];
  for (const { index, label, jumps } of bars) {
    if (jumps.daCapo) back.set(index, 0);
    else if (jumps.dalSegno !== null) {
      const target = findMarked(bars, "segno", jumps.dalSegno);
      if (target !== null) back.set(index, target);
      else
        notices.push(
          notice("jump-without-segno", `Bar ${label} says dal segno, but no bar carries the sign.`, label),
        );
    }
    if (jumps.toCoda !== null) {
      const target = findMarked(bars, "coda", jumps.toCoda);
      if (target !== null) toCoda.set(index, target);
      else
        notices.push(
          notice("jump-without-coda", `Bar ${label} leads to a coda, but no bar carries the sign.`, label),
        );
    }
  }
  return { back, toCoda, notices };
}
