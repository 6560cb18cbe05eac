"use client";

import { type RefObject, useEffect, useRef, useSyncExternalStore } from "react";
import { nowhere, type Playing } from "../playing";

/** A row as much in view as this is whole, in pixels: what is measured is never exact. */
const slack = 2;

/**
 * Turns as a page turner does: when the music comes into the last whole system on view, that system goes to the top, so
 * that what follows is seen in time. Within a system nothing moves, so that a reader may look elsewhere. Draws nothing.
 */
export function TurnPages({
  playing,
  scroller,
  takeTo,
}: {
  playing: Playing;
  scroller: RefObject<HTMLElement | null>;
  takeTo: (bar: number, edge: "top" | "bottom") => void;
}) {
  const bar = useSyncExternalStore(playing.subscribe, () => playing.at()?.barIndex ?? null, nowhere);
  const lastRow = useRef<string | null>(null);
  useEffect(() => {
    const element = scroller.current;
    if (bar === null || !element) {
      lastRow.current = null;
      return;
    }
    const rows = [...element.querySelectorAll("[data-first-bar]")];
    const at = rows.findIndex((row) => isIn(row, bar));
    const row = rows[at];
    const name = row?.getAttribute("data-first-bar") ?? null;
    if (!row || name === lastRow.current) return;
    lastRow.current = name;
    const next = rows[at + 1] ?? row;
    if (!isWhole(row, element) || !isWhole(next, element)) takeTo(bar, "top");
  }, [bar, scroller, takeTo]);
  return null;
}

function isIn(row: Element, bar: number): boolean {
  return (
    bar >= Number(row.getAttribute("data-first-bar")) && bar <= Number(row.getAttribute("data-last-bar"))
  );
}

function isWhole(row: Element, scroller: Element): boolean {
  const [at, view] = [row.getBoundingClientRect(), scroller.getBoundingClientRect()];
  return at.top >= view.top - slack && at.bottom <= view.bottom + slack;
}
