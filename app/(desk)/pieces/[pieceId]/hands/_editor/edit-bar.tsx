"use client";

import { classNames } from "@/app/_ui/class-names";
import type { RewriteEvent } from "@/lib/edition/rewrite-terms";
import { isSamePlace, placeOf } from "@/lib/rewrites/editing/event-place";
import { editActions, withStrokes } from "./edit-actions";
import styles from "./edit-bar.module.css";
import type { Editing } from "./use-editing";

const strokeCounts = [1, 2, 3, 4];

/** The few things that can be done to what is chosen, each with its key. */
export function EditBar({
  editing,
  isAdding,
  onAdding,
}: {
  editing: Editing;
  isAdding: boolean;
  onAdding: (isAdding: boolean) => void;
}) {
  const { choice, terms } = editing;
  const event = choice && terms.events.find((each) => isSamePlace(placeOf(each), choice.place));
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset draws a frame and a legend of its own
    <div className={styles.bar} role="group" aria-label="What can be done to the chosen notes">
      {editActions.map((action) => (
        <button
          key={action.id}
          type="button"
          className={classNames(styles.action, event && choice && action.isOn?.(event, choice) && styles.on)}
          aria-pressed={action.isOn ? Boolean(event && choice && action.isOn(event, choice)) : undefined}
          aria-keyshortcuts={keysOf(action.keys, action.withShift)}
          disabled={!event}
          onClick={() => editing.act(action)}
        >
          {action.label} <kbd>{action.hint}</kbd>
        </button>
      ))}
      <button
        type="button"
        className={classNames(styles.action, isAdding && styles.on)}
        aria-pressed={isAdding}
        onClick={() => onAdding(!isAdding)}
      >
        Add by pressing <kbd>N</kbd>
      </button>
      {event?.tremolo && <Strokes event={event} editing={editing} />}
    </div>
  );
}

function keysOf(keys: readonly string[], withShift?: boolean): string {
  return keys
    .map((key) => `${withShift ? "Shift+" : ""}${key.length === 1 ? key.toUpperCase() : capital(key)}`)
    .join(" ");
}

const shown: Readonly<Record<string, string>> = { arrowup: "ArrowUp", arrowdown: "ArrowDown" };
const capital = (key: string) => shown[key] ?? `${key.charAt(0).toUpperCase()}${key.slice(1)}`;

function Strokes({ event, editing }: { event: RewriteEvent; editing: Editing }) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset draws a frame and a legend of its own
    <div className={styles.strokes} role="group" aria-label="Strokes of the tremolo">
      <span aria-hidden="true">Strokes</span>
      {strokeCounts.map((strokes) => (
        <button
          key={strokes}
          type="button"
          className={classNames(styles.action, event.tremolo?.strokes === strokes && styles.on)}
          aria-pressed={event.tremolo?.strokes === strokes}
          onClick={() => editing.act((chosen) => withStrokes(chosen, strokes))}
        >
          {strokes}
        </button>
      ))}
    </div>
  );
}
