"use client";

import { type PointerEvent, useRef } from "react";
import { type Marking, tapBar } from "./mark-bars";

/** A press that moves further than this is a drag with a mouse, and a scroll with a finger. */
const tapPixels = 8;

/** The bar under a point of the page; null where no bar is. */
function barAt(x: number, y: number): number | null {
  const bar = document.elementFromPoint(x, y)?.closest("[data-bar]")?.getAttribute("data-bar");
  return bar === null || bar === undefined ? null : Number(bar);
}

/** Marking bars on the score: tap and tap, Shift and tap, or drag with a mouse or a pen. */
export function useMarking(marking: Marking | null, onMark: (marking: Marking | null) => void) {
  const press = useRef<{ x: number; y: number; bar: number; isDrag: boolean } | null>(null);
  return {
    onPointerDown: (event: PointerEvent) => {
      const bar = event.button === 0 ? barAt(event.clientX, event.clientY) : null;
      press.current = bar === null ? null : { x: event.clientX, y: event.clientY, bar, isDrag: false };
    },
    onPointerMove: (event: PointerEvent) => {
      const held = press.current;
      if (!held || event.pointerType === "touch") return;
      if (event.buttons === 0) {
        press.current = null;
        return;
      }
      if (Math.hypot(event.clientX - held.x, event.clientY - held.y) > tapPixels) held.isDrag = true;
      const bar = held.isDrag ? barAt(event.clientX, event.clientY) : null;
      if (bar !== null) onMark({ anchor: held.bar, head: bar });
    },
    onPointerUp: (event: PointerEvent) => {
      const held = press.current;
      press.current = null;
      if (!held || held.isDrag) return;
      const isTap = Math.hypot(event.clientX - held.x, event.clientY - held.y) <= tapPixels;
      if (isTap) onMark(tapBar(marking, held.bar, event.shiftKey));
    },
    onPointerCancel: () => {
      press.current = null;
    },
  };
}
