import type { Desk, DeskCut } from "@/app/_data/desk/desk";
import { type BarSpan, type Marking, spanOf, tapBar } from "@/app/_ui/score/mark-bars";
import type { Reading } from "@/app/_ui/score/score-view";
import { type CutDraft, draftOf, spanOfDraft } from "../_cuts/cut-draft";
import type { CutEnds } from "../_cuts/cut-questions";
import type { SearchSettings } from "../_search/search-settings";
import { addPick, isSamePick, type WeighPick } from "../_weigh/weigh-picks";

/** What has the room of a narrow screen. */
export type Pane = "score" | "cuts" | "tutti" | "time" | "comments";

/** Where the score is taken each time `turn` changes: the bar comes to this edge of the view. */
export interface GoTo {
  readonly bar: number;
  readonly edge: "top" | "bottom";
  readonly turn: number;
}

/** Bars and notes that are marked on the score because a judgement speaks of them. */
export interface Shown {
  /** Which line of which judgement. */
  readonly key: string;
  /** By index, in the order of the page. */
  readonly bars: readonly number[];
  readonly noteIds: readonly string[];
  /** Of the cut that was judged. */
  readonly cut: CutEnds;
}

/** A cut that is drawn on strip and score to be looked at; nothing is drafted by it. */
export interface Looked extends CutEnds {
  /** "bars 85–96". */
  readonly name: string;
}

/** A cue that is being written over a bar, or that was touched on the score. */
export type CueInHand =
  | { readonly kind: "write"; readonly bar: number }
  | { readonly kind: "open"; readonly id: string };

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
  readonly shown: Shown | null;
  readonly looked: Looked | null;
  readonly cue: CueInHand | null;
  /** The form of the search while it is open. */
  readonly search: SearchSettings | null;
  /** What was searched for last; its results stay until the search is closed. */
  readonly asked: SearchSettings | null;
  /** Chosen to be weighed against each other: none, one or two. */
  readonly picks: readonly WeighPick[];
  /** Both are on the screen side by side. */
  readonly isWeighing: boolean;
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
  | { readonly kind: "keys"; readonly isShown: boolean }
  | { readonly kind: "show"; readonly shown: Shown | null }
  | { readonly kind: "look"; readonly looked: Looked | null }
  | { readonly kind: "cue"; readonly cue: CueInHand | null }
  | { readonly kind: "search"; readonly search: SearchSettings | null }
  | { readonly kind: "ask"; readonly asked: SearchSettings | null }
  | { readonly kind: "pick"; readonly pick: WeighPick }
  | { readonly kind: "drop-pick"; readonly pick: WeighPick }
  | { readonly kind: "weigh"; readonly picks: readonly WeighPick[] };

/** The screen as it opens: the first cut that waits for this member, else the first open one, is in front. */
export function startState(desk: Pick<Desk, "cuts">): DeskState {
  const first = firstToAnswer(desk.cuts);
  return {
    ...{ openCutId: first?.id ?? null, draft: null, commenting: null, shownComments: [], marking: null },
    ...{ reading: "folded", pane: "score", view: null, cursor: 0, areKeysShown: false },
    goTo: { bar: 0, edge: "top", turn: 0 },
    ...{ shown: null, looked: null, cue: null, search: null, asked: null, picks: [], isWeighing: false },
  };
}

export function firstToAnswer(cuts: readonly DeskCut[]): DeskCut | null {
  return cuts.find(({ waitsForMe }) => waitsForMe) ?? cuts.find(({ state }) => state === "open") ?? null;
}

function went(state: DeskState, bar: number | null): DeskState["goTo"] {
  return bar === null ? state.goTo : { bar, edge: "top", turn: state.goTo.turn + 1 };
}

/** The score comes to a bar that it does not show. */
function wentIfHidden(state: DeskState, bar: number): DeskState["goTo"] {
  const { view } = state;
  return view && bar >= view.firstBar && bar <= view.lastBar ? state.goTo : went(state, bar);
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

/** A fold keeps two bars at each end of a cut: whether one of these would be hidden by it. */
function isFoldedAway({ bars, cut }: Shown): boolean {
  const last = cut.to.offset === "0" ? cut.to.barIndex - 1 : cut.to.barIndex;
  return bars.some((bar) => bar > cut.from.barIndex + 1 && bar < last - 1);
}

/** The score comes to the first of the bars, in a reading that has them. */
function show(state: DeskState, shown: Shown | null): DeskState {
  const [bar] = shown?.bars ?? [];
  if (shown === null || bar === undefined) return { ...state, shown };
  const isHidden = state.reading === "as-it-will-read" || isFoldedAway(shown);
  return {
    ...state,
    ...{ shown, pane: "score", isWeighing: false },
    reading: isHidden ? "open" : state.reading,
    goTo: went(state, bar),
  };
}

function look(state: DeskState, looked: Looked | null): DeskState {
  if (looked === null) return { ...state, looked };
  return {
    ...state,
    ...{ looked, shown: null, marking: null, pane: "score", isWeighing: false },
    reading: state.reading === "as-it-will-read" ? "open" : state.reading,
    goTo: went(state, Math.max(0, looked.from.barIndex - 1)),
  };
}

/** What belongs to finding and weighing cuts. */
function moveSearch(state: DeskState, move: DeskMove): DeskState | null {
  switch (move.kind) {
    case "show":
      return show(state, move.shown);
    case "look":
      return look(state, move.looked);
    case "search":
      return move.search === null
        ? { ...state, search: null, asked: null, looked: null }
        : { ...state, search: move.search, pane: "cuts" };
    case "ask":
      return { ...state, asked: move.asked };
    case "pick": {
      const picks = addPick(state.picks, move.pick);
      return { ...state, picks, isWeighing: picks.length === 2, pane: "cuts" };
    }
    case "drop-pick":
      return {
        ...state,
        ...{ picks: state.picks.filter((pick) => !isSamePick(pick, move.pick)), isWeighing: false },
      };
    case "weigh":
      return { ...state, picks: move.picks, isWeighing: move.picks.length === 2 };
    default:
      return null;
  }
}

/** The next state; pure. */
export function moveDesk(state: DeskState, move: DeskMove): DeskState {
  return moveSearch(state, move) ?? moveOnDesk(state, move);
}

function moveOnDesk(state: DeskState, move: DeskMove): DeskState {
  switch (move.kind) {
    case "open-cut":
      return {
        ...state,
        ...{ openCutId: move.cutId, draft: null, pane: move.cutId === null ? state.pane : "cuts" },
        ...{ shown: null, looked: null, isWeighing: false },
        goTo: went(state, move.bar),
      };
    case "draft":
      return move.draft === null
        ? { ...state, draft: null, marking: null }
        : {
            ...state,
            ...{ draft: move.draft, marking: markingOf(move.draft), pane: "cuts" },
            ...{ shown: null, looked: null, isWeighing: false },
            goTo: state.draft === null ? wentIfHidden(state, move.draft.from.barIndex) : state.goTo,
          };
    case "draft-marked": {
      const span = state.marking ? spanOf(state.marking) : (state.view ?? { firstBar: 0, lastBar: 0 });
      const draft = draftOf(move.desk, span);
      return { ...state, draft, marking: markingOf(draft), pane: "cuts" };
    }
    case "comment-marked":
      return state.marking ? { ...state, commenting: spanOf(state.marking), pane: "comments" } : state;
    case "cue":
      return { ...state, cue: move.cue, marking: null, pane: move.cue ? "score" : state.pane };
    case "commented":
      return { ...state, commenting: null, marking: null };
    case "show-comments":
      return { ...state, shownComments: move.ids, pane: "comments" };
    case "mark":
      // Letting go lets go of all that was marked, by hand or to be looked at.
      return marked(
        { ...state, shown: null, cue: null, looked: move.marking === null ? null : state.looked },
        move.marking,
        move.desk,
      );
    case "mark-here": {
      const isOpen = state.marking !== null && state.marking.anchor === state.marking.head;
      return marked(state, tapBar(isOpen ? state.marking : null, move.bar, isOpen), move.desk);
    }
    case "reading":
      return { ...state, reading: move.reading, goTo: went(state, state.view?.firstBar ?? null) };
    case "pane":
      return { ...state, pane: move.pane, isWeighing: false };
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
    default:
      return state;
  }
}
