import type { Desk } from "@/app/_data/desk/desk";
import { spanOf } from "@/app/_ui/score/mark-bars";
import { findBarAt } from "@/app/_ui/strip/view-frame";
import { comparePositions, type Position } from "@/lib/score/position";
import { noQuarters, readQuarters } from "@/lib/score/quarters";
import type { ListenRequest } from "@/lib/sound/listen-request";
import { agreedCuts } from "../_cuts/cut-questions";
import type { DeskState } from "./desk-state";

type Here = Pick<DeskState, "marking" | "cursor">;

/**
 * What Listen plays: the marked bars, else the piece from where the reader is, with the agreed cuts. Marked bars that lie
 * wholly in a cut are heard all the same.
 */
export function listenFrom(
  desk: Pick<Desk, "bars" | "cuts" | "strip">,
  { marking, cursor }: Here,
): ListenRequest {
  const cuts = agreedCuts(desk, null);
  if (marking !== null) {
    const { firstBar, lastBar } = spanOf(marking);
    const from: Position = { barIndex: firstBar, offset: noQuarters };
    const to = endOf(desk, lastBar);
    const isInside = cuts.some(
      (cut) => comparePositions(cut.from, from) <= 0 && comparePositions(to, cut.to) <= 0,
    );
    return { kind: "span", from, to, cuts: isInside ? [] : cuts };
  }
  const { bars } = desk.strip;
  const here = findBarAt(bars, cursor);
  if (here === null || here === bars[0]) return { kind: "piece", cuts, from: null };
  const pass = bars.filter(({ barIndex, from }) => barIndex === here.barIndex && from <= here.from).length;
  return { kind: "piece", cuts, from: { barIndex: here.barIndex, offset: noQuarters, pass } };
}

/** Behind a bar: the start of the next, or the end of the last. */
function endOf({ bars }: Pick<Desk, "bars">, bar: number): Position {
  if (bar + 1 < bars.length) return { barIndex: bar + 1, offset: noQuarters };
  return { barIndex: bar, offset: readQuarters(bars[bar]?.length ?? "0") ?? noQuarters };
}
