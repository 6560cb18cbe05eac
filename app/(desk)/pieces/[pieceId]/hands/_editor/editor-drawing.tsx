"use client";

import { type PointerEvent, useEffect, useMemo, useRef, useState } from "react";
import { classNames } from "@/app/_ui/class-names";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import type { DrawnPassage } from "@/lib/engrave/passage/drawn-passage";
import { isSamePitch, isSamePlace, placeOf } from "@/lib/rewrites/editing/event-place";
import styles from "./editor-drawing.module.css";
import { findDrawn } from "./find-drawn";
import { type EventBox, measureEvents, nearestEvent, type PointOnSystem } from "./measure-events";
import { PassageSystem } from "./passage-system";
import { noteAtPress } from "./place-of-press";
import { sayEvent } from "./say-event";
import type { Editing } from "./use-editing";

/**
 * The bars that are written, with everything in them to be chosen: by a press, with Tab from one to the next, or with the
 * arrow keys.
 *
 * @param drawn what `passage` shows. @param isAdding a press on the staves writes a note there.
 */
export function EditorDrawing({
  passage,
  drawn,
  editing,
  isAdding,
}: {
  passage: DrawnPassage;
  drawn: RewriteTerms;
  editing: Editing;
  isAdding: boolean;
}) {
  return passage.systems.map((system, index) => (
    <SystemToEdit
      // Systems never change their order.
      // biome-ignore lint/suspicious/noArrayIndexKey: see above
      key={index}
      {...{ passage, system, drawn, editing, isAdding }}
    />
  ));
}

function SystemToEdit({
  passage,
  system,
  drawn,
  editing,
  isAdding,
}: {
  passage: DrawnPassage;
  system: DrawnPassage["systems"][number];
  drawn: RewriteTerms;
  editing: Editing;
  isAdding: boolean;
}) {
  const [drawing, setDrawing] = useState<SVGSVGElement | null>(null);
  const events = useMemo(() => findDrawn(passage, drawn.events), [passage, drawn]);
  const [boxes, setBoxes] = useState<readonly EventBox[]>([]);
  useEffect(() => {
    // A drawing that has given way to the next is told of in the same moment, and measures nothing any more.
    if (drawing?.isConnected) setBoxes(measureEvents(drawing, events));
  }, [drawing, events]);
  useMarked(drawing, boxes, editing);
  const press = (event: PointerEvent<HTMLDivElement>) => {
    const point = pointOf(event);
    const pressed = isAdding ? noteAtPress(passage, system, boxes, point) : null;
    if (pressed) return editing.addAt(pressed.place, pressed.pitch);
    const found = nearestEvent(boxes, point);
    if (!found) return;
    const place = placeOf(found.box.event);
    // The first press takes the chord, the second the note.
    const isAgain = editing.choice !== null && isSamePlace(editing.choice.place, place);
    editing.choose({ place, pitch: isAgain ? found.pitch : null });
    focusEvent(event.currentTarget, boxes.indexOf(found.box));
  };
  return (
    <PassageSystem system={system} onDrawn={setDrawing}>
      <div className={classNames(styles.over, isAdding && styles.adding)} onPointerUp={press}>
        {boxes.map((box) => (
          <EventButton key={JSON.stringify(placeOf(box.event))} {...{ box, passage, editing }} />
        ))}
      </div>
    </PassageSystem>
  );
}

function EventButton({ box, passage, editing }: { box: EventBox; passage: DrawnPassage; editing: Editing }) {
  const place = placeOf(box.event);
  const isChosen = editing.choice !== null && isSamePlace(editing.choice.place, place);
  const element = useRef<HTMLButtonElement>(null);
  const choose = () => {
    if (!isChosen) editing.choose({ place, pitch: null });
  };
  // Where the choice goes by keys, the focus goes with it.
  useEffect(() => {
    const { activeElement: now } = document;
    const isOnNote = now instanceof HTMLElement && now.dataset.event !== undefined;
    if (isChosen && isOnNote && now !== element.current) element.current?.focus({ preventScroll: true });
  }, [isChosen]);
  return (
    <button
      ref={element}
      type="button"
      className={classNames(styles.event, isChosen && styles.chosen)}
      style={{
        left: `${box.left}%`,
        top: `${box.top}%`,
        width: `${box.right - box.left}%`,
        height: `${box.bottom - box.top}%`,
      }}
      aria-label={sayEvent(box.event, passage.bars)}
      aria-pressed={isChosen}
      data-event={`${place.barIndex} ${place.offset} ${place.staff} ${place.voice}`}
      onFocus={choose}
      onClick={choose}
    />
  );
}

/** The heads of what is chosen, in the writer's ink. */
function useMarked(drawing: SVGSVGElement | null, boxes: readonly EventBox[], { choice }: Editing): void {
  useEffect(() => {
    if (!drawing) return;
    for (const old of drawing.querySelectorAll(".chosen")) old.classList.remove("chosen");
    const box = choice && boxes.find(({ event }) => isSamePlace(placeOf(event), choice.place));
    for (const { id, pitch } of box?.heads ?? []) {
      const isMeant = choice?.pitch == null || isSamePitch(choice.pitch, pitch);
      if (isMeant) drawing.querySelector(`[id="${CSS.escape(id)}"]`)?.classList.add("chosen");
    }
  }, [drawing, boxes, choice]);
}

function pointOf(event: PointerEvent<HTMLDivElement>): PointOnSystem {
  const { left, top, width, height } = event.currentTarget.getBoundingClientRect();
  return { x: event.clientX - left, y: event.clientY - top, width, height };
}

/** So that keys go on from where it was pressed. */
function focusEvent(over: HTMLElement, index: number): void {
  over.querySelectorAll<HTMLElement>("[data-event]")[index]?.focus({ preventScroll: true });
}
