"use client";

import { type RefObject, useCallback, useEffect, useMemo, useRef, useState } from "react";
import { useAnnounce } from "@/app/_ui/announcer";
import type { RewritePitch, RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { DrawnPassage } from "@/lib/engrave/passage/drawn-passage";
import { addNote, addNoteAt, type StaffPlace } from "@/lib/rewrites/editing/add-note";
import {
  addStep,
  beginHistory,
  canRedo,
  canUndo,
  type EditHistory,
  redo,
  standingIn,
  undo,
} from "@/lib/rewrites/editing/edit-history";
import type { Edited } from "@/lib/rewrites/editing/edit-problem";
import {
  eventAt,
  isSamePitch,
  isSamePlace,
  type NoteChoice,
  placeOf,
} from "@/lib/rewrites/editing/event-place";
import { type Quarters, quarters, readQuarters } from "@/lib/score/quarters";
import { success } from "@/lib/score/result";
import { type DraftPlace, forgetDraft, readDraft, writeDraft } from "./draft";
import type { Chosen, EditAction } from "./edit-actions";
import { type Direction, moveChoice } from "./move-choice";
import { sayEvent } from "./say-event";

/** A rewrite while it is written. */
export interface Editing {
  readonly terms: RewriteTerms;
  readonly words: string;
  readonly choice: NoteChoice | null;
  /** What could not be done last, in a sentence. */
  readonly problem: string | null;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** It is other than what the editor was opened with. */
  readonly isChanged: boolean;
  /** It was written before and found again. */
  readonly isFound: boolean;
  readonly choose: (choice: NoteChoice | null) => void;
  readonly go: (direction: Direction) => void;
  readonly act: (action: EditAction | ((chosen: Chosen) => Edited<Chosen>)) => void;
  readonly add: (pitch: RewritePitch) => void;
  readonly addAt: (place: StaffPlace, pitch: RewritePitch) => void;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly setWords: (words: string) => void;
  readonly beginAnew: () => void;
  /** The draft in this browser is not wanted any more. */
  readonly forget: () => void;
}

/** @param drawn the passage as it is drawn, for its bars and staves; null until it is there. */
export function useEditing(
  terms: RewriteTerms,
  place: DraftPlace,
  drawn: RefObject<DrawnPassage | null>,
): Editing {
  const announce = useAnnounce();
  const kept = useKept(terms, place);
  const { history, words, setHistory } = kept;
  const [choice, setChoice] = useState<NoteChoice | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const standing = standingIn(history);
  const known = useRef({ standing, choice });
  known.current = { standing, choice };

  const choose = useCallback((next: NoteChoice | null) => {
    setProblem(null);
    setChoice(next);
  }, []);
  const settle = useCallback(
    (edited: Edited<Chosen>) => {
      if (!edited.ok) {
        setProblem(edited.problem.sentence);
        announce(edited.problem.sentence);
        return;
      }
      const { terms: written, choice: next } = edited.value;
      setProblem(null);
      setHistory((before) => addStep(before, written));
      setChoice(next);
      announce(sayEvent(eventAt(written, next.place), drawn.current?.bars ?? []));
    },
    [announce, setHistory, drawn],
  );
  const act = useCallback<Editing["act"]>(
    (action) => {
      const { standing: now, choice: chosen } = known.current;
      if (chosen === null) return setProblem(chooseFirst);
      const apply = typeof action === "function" ? action : action.apply;
      settle(apply({ terms: now, choice: chosen }, drawn.current?.staffCount ?? 2));
    },
    [settle, drawn],
  );
  const add = useCallback<Editing["add"]>(
    (pitch) =>
      act(({ terms: now, choice: chosen }) => {
        const added = addNote(now, chosen.place, pitch);
        return added.ok ? success({ terms: added.value, choice: { ...chosen, pitch } }) : added;
      }),
    [act],
  );
  const addAt = useCallback<Editing["addAt"]>(
    (at, pitch) => {
      const longest = beatOf(drawn.current, at.barIndex);
      const added = addNoteAt(known.current.standing, at, pitch, longest);
      settle(
        added.ok ? success({ terms: added.value.terms, choice: { place: added.value.place, pitch } }) : added,
      );
    },
    [settle, drawn],
  );
  const go = useCallback<Editing["go"]>(
    (direction) => choose(moveChoice(known.current.standing.events, known.current.choice, direction)),
    [choose],
  );
  const step = useCallback(
    (change: (before: EditHistory) => EditHistory, said: string) => {
      setProblem(null);
      setHistory(change);
      announce(said);
    },
    [announce, setHistory],
  );
  return {
    terms: standing,
    words,
    choice: stillThere(standing, choice),
    problem,
    canUndo: canUndo(history),
    canRedo: canRedo(history),
    isChanged: !isSameMusic(standing, terms) || words !== terms.words,
    isFound: kept.isFound,
    ...{ choose, go, act, add, addAt },
    undo: useCallback(() => step(undo, "Undone."), [step]),
    redo: useCallback(() => step(redo, "Done again."), [step]),
    setWords: kept.setWords,
    beginAnew: kept.beginAnew,
    forget: kept.forget,
  };
}

const isSameMusic = (a: RewriteTerms, b: RewriteTerms): boolean =>
  JSON.stringify(a.events) === JSON.stringify(b.events);

const chooseFirst = "Choose a note first: press it, or go to it with the arrow keys.";

function beatOf(passage: DrawnPassage | null, barIndex: number): Quarters {
  const bar = passage?.bars.find((each) => each.barIndex === barIndex);
  return readQuarters(bar?.beat ?? "1") ?? quarters(1);
}

/** Undoing may take away what is chosen. */
function stillThere({ events }: RewriteTerms, choice: NoteChoice | null): NoteChoice | null {
  const event = choice && events.find((each) => isSamePlace(placeOf(each), choice.place));
  if (!event || !choice) return null;
  const { pitch } = choice;
  const all = [...event.pitches, ...(event.tremolo?.other ?? [])];
  return pitch === null || all.some((each) => isSamePitch(each, pitch)) ? choice : { ...choice, pitch: null };
}

/** What is written, with every step of it kept in this browser's tab: a reload loses nothing. */
function useKept(terms: RewriteTerms, place: DraftPlace) {
  const { pieceId, sourceHash, fromBar, toBar } = place;
  const where = useMemo(
    () => ({ pieceId, sourceHash, fromBar, toBar }),
    [pieceId, sourceHash, fromBar, toBar],
  );
  const [history, setHistory] = useState(() => beginHistory(terms));
  const [words, setWords] = useState(terms.words);
  const [isFound, setFound] = useState(false);
  // Drafts are in the browser only: the first drawing, which the server shares, is without.
  const hasLooked = useRef(false);
  useEffect(() => {
    if (hasLooked.current) return;
    hasLooked.current = true;
    const draft = readDraft(sessionStorage, where);
    if (!draft) return;
    // It was kept meanwhile.
    if (isSameMusic(standingIn(draft.history), terms)) return forgetDraft(sessionStorage, where);
    setHistory(draft.history);
    setWords(draft.words);
    setFound(true);
  }, [where, terms]);
  const isUntouched = history.states.length === 1 && words === terms.words;
  useEffect(() => {
    if (hasLooked.current && !isUntouched) writeDraft(sessionStorage, where, { history, words });
  }, [where, history, words, isUntouched]);
  const forget = useCallback(() => forgetDraft(sessionStorage, where), [where]);
  const beginAnew = useCallback(() => {
    forget();
    setHistory(beginHistory(terms));
    setWords(terms.words);
    setFound(false);
  }, [forget, terms]);
  return { history, words, isFound, setHistory, setWords, beginAnew, forget };
}
