import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import { type BarSpan, type Marking, spanOf, tapBar } from "@/app/_ui/score/mark-bars";
import type { Reading } from "@/app/_ui/score/score-view";
import { type CutDraft, draftOf, spanOfDraft } from "./cut-draft";

/** What has the room of a narrow screen. */
export type Pane = "score" | "cuts" | "tutti" | "time" | "comments";

/** Where the score is taken each time `turn` changes: the bar comes to this edge of the view. */
export interface GoTo {
  readonly bar: number;
  readonly edge: "top" | "bottom";
  readonly turn: number;
}

/** What the reader of the piece screen is at; nothing of it is stored. */
export interface DeskState {
  readonly openCutId: string | null;
  readonly draft: CutDraft | null;
  readonly commenting: BarSpan | null;
  readonly shownComments: readonly string[];
  readonly marking: Marking | null;
  readonly reading: Reading;
  readonly pane: Pane;
  readonly view: BarSpan | null;
  /** Where the reader is, in seconds of the piece as written. */
  readonly cursor: number;
  readonly goTo: GoTo;
  readonly areKeysShown: boolean;
}

export type DeskMove =
  | { readonly kind: "open-cut"; readonly cutId: string | null; readonly bar: number | null }
  | { readonly kind: "draft"; readonly draft: CutDraft | null }
  | { readonly kind: "draft-marked"; readonly desk: Pick<Desk, "bars"> }
  | { readonly kind: "comment-marked" }
  | { readonly kind: "commented" }
  | { readonly kind: "show-comments"; readonly ids: readonly string[] }
  | { readonly kind: "mark"; readonly marking: Marking | null; readonly desk: Pick<Desk, "bars"> }
  | { readonly kind: "mark-here"; readonly bar: number; readonly desk: Pick<Desk, "bars"> }
  | { readonly kind: "reading"; readonly reading: Reading }
  | { readonly kind: "pane"; readonly pane: Pane }
  | { readonly kind: "leaf"; readonly direction: 1 | -1 }
  | { readonly kind: "view"; readonly view: BarSpan }
  | { readonly kind: "cursor"; readonly second: number; readonly bar: number | null }
  | { readonly kind: "keys"; readonly isShown: boolean };

/** The screen as it opens: the first cut that waits for this member, else the first open one, is in front. */
export function startState(desk: Pick<Desk, "cuts">): DeskState {
  const first = firstToAnswer(desk.cuts);
  return {
    ...{ openCutId: first?.id ?? null, draft: null, commenting: null, shownComments: [], marking: null },
    ...{ reading: "folded", pane: "score", view: null, cursor: 0, areKeysShown: false },
    goTo: { bar: 0, edge: "top", turn: 0 },
  };
}

export function firstToAnswer(cuts: readonly DeskCut[]): DeskCut | null {
  return cuts.find(({ waitsForMe }) => waitsForMe) ?? cuts.find(({ state }) => state === "open") ?? null;
}

function went(state: DeskState, bar: number | null): DeskState["goTo"] {
  return bar === null ? state.goTo : { bar, edge: "top", turn: state.goTo.turn + 1 };
}

/** A page on, the bar after the last seen comes to the top; a page back, the bar before the first to the bottom. */
function leafed({ firstBar, lastBar }: BarSpan, turn: number, direction: 1 | -1): GoTo {
  return direction === 1
    ? { bar: lastBar + 1, edge: "top", turn: turn + 1 }
    : { bar: Math.max(0, firstBar - 1), edge: "bottom", turn: turn + 1 };
}

/** Marking bars while a cut is being chosen moves its ends to whole bars. */
function marked(state: DeskState, marking: Marking | null, desk: Pick<Desk, "bars">): DeskState {
  const { draft } = state;
  if (draft === null || marking === null) return { ...state, marking };
  const { from, to } = draftOf(desk, spanOf(marking));
  return { ...state, marking, draft: { ...draft, from, to } };
}

function markingOf(draft: CutDraft): Marking {
  const { firstBar, lastBar } = spanOfDraft(draft);
  return { anchor: firstBar, head: lastBar };
}

/** The next state; pure. */
export function moveDesk(state: DeskState, move: DeskMove): DeskState {
  switch (move.kind) {
    case "open-cut":
      return {
        ...state,
        ...{ openCutId: move.cutId, draft: null, pane: move.cutId === null ? state.pane : "cuts" },
        goTo: went(state, move.bar),
      };
    case "draft":
      return move.draft === null
        ? { ...state, draft: null, marking: null }
        : { ...state, draft: move.draft, marking: markingOf(move.draft), pane: "cuts" };
    case "draft-marked": {
      const span = state.marking ? spanOf(state.marking) : (state.view ?? { firstBar: 0, lastBar: 0 });
      const draft = draftOf(move.desk, span);
      return { ...state, draft, marking: markingOf(draft), pane: "cuts" };
    }
    case "comment-marked":
      return state.marking ? { ...state, commenting: spanOf(state.marking), pane: "comments" } : state;
    case "commented":
      return { ...state, commenting: null, marking: null };
    case "show-comments":
      return { ...state, shownComments: move.ids, pane: "comments" };
    case "mark":
      return marked(state, move.marking, move.desk);
    case "mark-here": {
      const isOpen = state.marking !== null && state.marking.anchor === state.marking.head;
      return marked(state, tapBar(isOpen ? state.marking : null, move.bar, isOpen), move.desk);
    }
    case "reading":
      return { ...state, reading: move.reading, goTo: went(state, state.view?.firstBar ?? null) };
    case "pane":
      return { ...state, pane: move.pane };
    case "leaf":
      return state.view === null
        ? state
        : { ...state, goTo: leafed(state.view, state.goTo.turn, move.direction) };
    case "view":
      return { ...state, view: move.view };
    case "cursor":
      return { ...state, cursor: move.second, goTo: went(state, move.bar) };
    case "keys":
      return { ...state, areKeysShown: move.isShown };
  }
}
