import { type Dispatch, startTransition, useCallback, useReducer } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { type DeskMove, type DeskState, moveDesk, startState } from "./desk-state";

/** What follows the hand: typed, dragged, or walked through with the keys. */
const atOnce: ReadonlySet<DeskMove["kind"]> = new Set([
  ...(["draft", "draft-marked", "mark", "mark-here", "cursor", "pane", "keys"] as const),
  ...(["search", "cue", "comment-marked", "commented"] as const),
]);

/**
 * What the reader is at, and the way to change it. Whatever brings much onto the page is drawn in slices, so that the page
 * answers meanwhile.
 */
export function useDeskMoves(desk: Desk): [DeskState, Dispatch<DeskMove>] {
  const [state, dispatch] = useReducer(moveDesk, desk, startState);
  const move = useCallback((next: DeskMove) => {
    if (atOnce.has(next.kind)) dispatch(next);
    else startTransition(() => dispatch(next));
  }, []);
  return [state, move];
}
