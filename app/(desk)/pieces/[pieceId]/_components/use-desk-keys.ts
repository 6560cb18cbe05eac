"use client";

import { type Dispatch, type KeyboardEvent, useCallback } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { useAnnounce } from "@/app/_ui/announcer";
import { nextStop } from "@/app/_ui/strip/next-stop";
import { findBarAt } from "@/app/_ui/strip/view-frame";
import type { DeskMove, DeskState } from "./desk-state";

/** Where the arrows stop: bars, with Shift letters, with Alt cuts. */
function stopsFor(desk: Desk, event: KeyboardEvent): number[] {
  const { bars, letters, cuts, totalSeconds } = desk.strip;
  if (event.altKey) {
    const gaps = cuts.flatMap((cut) => cut.gaps.map(({ from }) => from));
    return gaps.sort((a, b) => a - b);
  }
  if (event.shiftKey) return [0, ...letters.map(({ at }) => at), totalSeconds];
  return bars.map(({ from }) => from);
}

/** Puts the focus on a button of the open card and says what Enter will do: it asks once. */
function askOnCard(answer: "agree" | "decline"): boolean {
  const button = document.querySelector<HTMLButtonElement>(`[data-open] [data-answer="${answer}"]`);
  button?.focus();
  return button !== null;
}

/**
 * The keys of the strip and the score.
 *
 * @param listen plays, pauses, goes on.
 */
export function useDeskKeys(
  desk: Desk,
  state: DeskState,
  move: Dispatch<DeskMove>,
  listen: () => void,
): (event: KeyboardEvent) => void {
  const announce = useAnnounce();
  return useCallback(
    (event: KeyboardEvent) => {
      if (event.target instanceof HTMLElement && /^(INPUT|SELECT|TEXTAREA)$/.test(event.target.tagName))
        return;
      if (event.ctrlKey || event.metaKey) return;
      const here = findBarAt(desk.strip.bars, state.cursor);
      if (here === null) return;
      const arrow = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : null;
      if (arrow !== null) {
        event.preventDefault();
        const second = nextStop(stopsFor(desk, event), state.cursor, arrow);
        if (second === null) return announce("No more in this direction.");
        const bar = findBarAt(desk.strip.bars, second);
        return move({ kind: "cursor", second, bar: bar?.barIndex ?? null });
      }
      if (event.altKey) return;
      const take = (action: () => void) => {
        event.preventDefault();
        action();
      };
      switch (event.key) {
        case "Enter":
          if (event.target instanceof HTMLButtonElement) return;
          return take(() => move({ kind: "cursor", second: here.from, bar: here.barIndex }));
        case " ":
          // On a button it presses that button.
          return event.target instanceof HTMLButtonElement ? undefined : take(listen);
        case "m":
        case "M":
          return take(() => {
            move({ kind: "mark-here", bar: here.barIndex, desk });
            announce(`Marked at bar ${here.label}.`);
          });
        case "c":
        case "C":
          return desk.may.propose ? take(() => move({ kind: "draft-marked", desk })) : undefined;
        case "n":
        case "N":
          if (!desk.may.comment) return;
          return take(() =>
            state.marking ? move({ kind: "comment-marked" }) : announce("Mark bars first, with M."),
          );
        case "f":
        case "F":
          return take(() =>
            move({ kind: "reading", reading: state.reading === "folded" ? "open" : "folded" }),
          );
        case "a":
        case "A":
          return take(() =>
            announce(askOnCard("agree") ? "Agree? Enter agrees." : "No open card waits for your answer."),
          );
        case "d":
        case "D":
          return take(() =>
            announce(
              askOnCard("decline") ? "Decline? Enter asks why." : "No open card waits for your answer.",
            ),
          );
        case "Escape":
          return take(() => move({ kind: "mark", marking: null, desk }));
        case "?":
          return take(() => move({ kind: "keys", isShown: true }));
      }
    },
    [desk, state, move, listen, announce],
  );
}
