"use client";

import { type KeyboardEvent, useCallback } from "react";
import { editActions } from "./edit-actions";
import type { Direction } from "./move-choice";
import type { Editing } from "./use-editing";

const arrows: Readonly<Record<string, Direction>> = {
  arrowleft: "before",
  arrowright: "after",
  arrowup: "higher",
  arrowdown: "lower",
};

/**
 * The keys of the editor, wherever in it the focus is; fields keep theirs, and buttons keep Enter and Space.
 *
 * @param addByLetter adds the nearest note of that name. @param onAdding adding by pressing is turned on or off.
 */
export function useEditorKeys(
  editing: Editing,
  {
    addByLetter,
    listen,
    onAdding,
  }: { addByLetter: (letter: string) => void; listen: () => void; onAdding: () => void },
): (event: KeyboardEvent<HTMLElement>) => void {
  return useCallback(
    (event) => {
      if (isField(event.target) || event.altKey) return;
      const task = event.ctrlKey || event.metaKey ? historyTask(event, editing) : editTask(event, editing);
      const own = task ?? plainTask(event, { addByLetter, listen, onAdding });
      if (!own) return;
      event.preventDefault();
      own();
    },
    [editing, addByLetter, listen, onAdding],
  );
}

type Task = () => void;
const isField = (target: EventTarget): boolean =>
  target instanceof HTMLElement && /^(INPUT|SELECT|TEXTAREA)$/.test(target.tagName);

function historyTask({ key, shiftKey }: KeyboardEvent, editing: Editing): Task | null {
  const letter = key.toLowerCase();
  if (letter === "y" || (letter === "z" && shiftKey)) return editing.redo;
  return letter === "z" ? editing.undo : null;
}

function editTask({ key, shiftKey }: KeyboardEvent, editing: Editing): Task | null {
  const name = key.toLowerCase();
  const action = editActions.find(
    ({ keys, withShift }) =>
      keys.includes(name) && (withShift !== undefined) === (shiftKey && name.startsWith("arrow")),
  );
  if (action) return () => editing.act(action);
  const direction = arrows[name];
  return direction ? () => editing.go(direction) : null;
}

function plainTask(
  { key, target, ctrlKey, metaKey }: KeyboardEvent,
  { addByLetter, listen, onAdding }: { addByLetter: (letter: string) => void; listen: Task; onAdding: Task },
): Task | null {
  if (ctrlKey || metaKey) return null;
  if (/^[a-g]$/i.test(key)) return () => addByLetter(key);
  if (key.toLowerCase() === "n") return onAdding;
  // A button that is no note does what it says.
  const isNote = target instanceof HTMLElement && target.dataset.event !== undefined;
  return key === " " && isNote ? listen : null;
}
