"use client";

import { type ReactNode, useEffect, useRef } from "react";
import { openDrawingRoot } from "@/app/_ui/score/open-drawing-root";
import { readDrawing } from "@/app/_ui/score/read-drawing";
import type { DrawnPassage } from "@/lib/engrave/passage/drawn-passage";
import styles from "./passage-system.module.css";

/** Units of the drawing to a CSS pixel where there is room: a staff is then 24 pixels high, as in the score. */
const unitsPerPixel = 30;

/**
 * One system of a passage, in a shadow root of its own: whatever a score says stays text.
 *
 * @param onDrawn told with the drawing in the page each time it is another, to be measured and marked.
 */
export function PassageSystem({
  system,
  onDrawn,
  children,
}: {
  system: DrawnPassage["systems"][number];
  onDrawn?: (drawing: SVGSVGElement) => void;
  /** Lies over the drawing. */
  children?: ReactNode;
}) {
  const host = useRef<HTMLDivElement>(null);
  const tell = useRef(onDrawn);
  tell.current = onDrawn;
  useEffect(() => {
    if (!host.current) return;
    const root = openDrawingRoot(host.current);
    const drawing = readDrawing(system.svg);
    root.querySelector("svg")?.remove();
    if (!drawing) return;
    const shown = document.importNode(drawing, true);
    root.append(shown);
    tell.current?.(shown);
  }, [system.svg]);
  return (
    <div
      className={styles.system}
      style={{
        maxWidth: `${system.width / unitsPerPixel}px`,
        aspectRatio: `${system.width} / ${system.height}`,
      }}
    >
      <div ref={host} className={styles.drawing} aria-hidden="true" />
      {children}
    </div>
  );
}
