"use client";

import { type RefObject, useCallback, useEffect, useRef } from "react";
import type { BarSpan } from "./mark-bars";

/** A row counts as seen when this much of it is. */
const seenPixels = 48;

function barsOf(row: Element): BarSpan {
  const bar = (name: string) => Number(row.getAttribute(name));
  return { firstBar: bar("data-first-bar"), lastBar: bar("data-last-bar") };
}

function readRow(row: Element): BarSpan & { top: number; bottom: number } {
  const { top, bottom } = row.getBoundingClientRect();
  return { top, bottom, ...barsOf(row) };
}

function readView(scroller: HTMLElement): BarSpan | null {
  const view = scroller.getBoundingClientRect();
  const rows = [...scroller.querySelectorAll("[data-first-bar]")].map(readRow);
  const seen = rows.filter(({ top, bottom }) => {
    const shown = Math.min(bottom, view.bottom) - Math.max(top, view.top);
    return shown >= Math.min(seenPixels, bottom - top);
  });
  const [first, last] = [seen[0], seen.at(-1)];
  return first && last ? { firstBar: first.firstBar, lastBar: last.lastBar } : null;
}

/**
 * Tells which bars are on view whenever that changes, and brings a bar to an edge of the view.
 *
 * @param rowsKey changes when the rows do.
 */
export function useView(
  scroller: RefObject<HTMLElement | null>,
  rowsKey: unknown,
  onView: (view: BarSpan) => void,
): (bar: number, edge: "top" | "bottom") => void {
  const last = useRef<BarSpan | null>(null);
  const tell = useRef(onView);
  tell.current = onView;
  const report = useCallback(() => {
    const view = scroller.current && readView(scroller.current);
    if (!view) return;
    const { current } = last;
    if (current?.firstBar === view.firstBar && current.lastBar === view.lastBar) return;
    last.current = view;
    tell.current(view);
  }, [scroller]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: new rows are a new view
  useEffect(() => {
    const element = scroller.current;
    if (!element) return;
    let frame = 0;
    const soon = () => {
      cancelAnimationFrame(frame);
      frame = requestAnimationFrame(report);
    };
    soon();
    element.addEventListener("scroll", soon, { passive: true });
    window.addEventListener("resize", soon);
    return () => {
      cancelAnimationFrame(frame);
      element.removeEventListener("scroll", soon);
      window.removeEventListener("resize", soon);
    };
  }, [scroller, report, rowsKey]);

  return useCallback(
    (bar: number, edge: "top" | "bottom") => {
      const element = scroller.current;
      if (!element) return;
      const rows = [...element.querySelectorAll("[data-first-bar]")];
      const row = rows.find((candidate) => {
        const { firstBar, lastBar } = barsOf(candidate);
        return bar >= firstBar && bar <= lastBar;
      });
      if (!row) return;
      const [at, view] = [row.getBoundingClientRect(), element.getBoundingClientRect()];
      element.scrollTop += edge === "top" ? at.top - view.top - 4 : at.bottom - view.bottom + 4;
    },
    [scroller],
  );
}
