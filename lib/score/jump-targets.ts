import type { Bar } from "./bar";
import type { Notice } from "./notice";

function notice(kind: string, sentence: string, barLabel: string): Notice {
  return { kind, sentence, partName: null, barLabel };
}

/** The marked bars, by the name of the mark; the first bar of each name. */
function findMarked(bars: readonly Bar[], mark: "segno" | "coda"): ReadonlyMap<string, number> {
  const marked = new Map<string, number>();
  for (const bar of bars) {
    const name = bar.jumps[mark];
    if (name !== null && !marked.has(name)) marked.set(name, bar.index);
  }
  return marked;
}

/** The bar marked with the same name, or, when names do not pair, the only one marked at all. */
function pair(marked: ReadonlyMap<string, number>, name: string): number | null {
  const [only] = marked.size === 1 ? marked.values() : [];
  return marked.get(name) ?? only ?? null;
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
  const segni = findMarked(bars, "segno");
  const codas = findMarked(bars, "coda");
  for (const { index, label, jumps } of bars) {
    if (jumps.daCapo) back.set(index, 0);
    else if (jumps.dalSegno !== null) {
      const target = pair(segni, jumps.dalSegno);
      if (target !== null) back.set(index, target);
      else
        notices.push(
          notice("jump-without-segno", `Bar ${label} says dal segno, but no bar carries the sign.`, label),
        );
    }
    if (jumps.toCoda !== null) {
      const target = pair(codas, jumps.toCoda);
      if (target !== null) toCoda.set(index, target);
      else
        notices.push(
          notice("jump-without-coda", `Bar ${label} leads to a coda, but no bar carries the sign.`, label),
        );
    }
  }
  return { back, toCoda, notices };
}
