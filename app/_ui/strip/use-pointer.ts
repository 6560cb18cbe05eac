"use client";

import { type PointerEvent, useRef, useState } from "react";
import { findHits, fingerReach, mouseReach, pickHit, type Target } from "./find-hits";
import type { Scale } from "./scale";
import type { StripBar, StripPiece } from "./strip-piece";
import type { Meant } from "./targets";
import { findBarAt } from "./view-frame";

/** A press that moves further than this is a drag. */
const dragPixels = 5;

interface Press {
  x: number;
  /** From the left edge of the frame to the press; half the frame when the press was beside it. */
  grip: number;
  isDrag: boolean;
}

/** Taps, drags and the mouse over the strip, in the strip's own pixels. */
export function usePointer({
  piece,
  scale,
  targets,
  frame,
  onGo,
  onMean,
}: {
  piece: StripPiece;
  scale: Scale;
  targets: readonly Target<Meant>[];
  frame: { from: number; to: number } | null;
  onGo: (bar: StripBar) => void;
  onMean: (meant: Meant) => void;
}) {
  const press = useRef<Press | null>(null);
  const lastTap = useRef<{ x: number; y: number; took: string | null } | null>(null);
  const [hover, setHover] = useState<number | null>(null);

  const goTo = (x: number) => {
    const bar = findBarAt(piece.bars, scale.secondAt(x));
    if (bar) onGo(bar);
  };
  const tapAt = (tap: { x: number; y: number }, reach: number) => {
    const hits = findHits(targets, tap, reach);
    const last = lastTap.current;
    const took = hits.find((hit) => hit.meant.key === last?.took)?.meant ?? null;
    const hit = pickHit(hits, tap, last && { ...last, took });
    lastTap.current = { ...tap, took: hit?.meant.key ?? null };
    if (hit?.meant.kind === "letter") goTo(hit.x + 0.5);
    else goTo(tap.x);
    if (hit) onMean(hit.meant);
  };

  const handlers = {
    onPointerDown: (event: PointerEvent<HTMLElement>) => {
      if (event.button !== 0) return;
      const { x } = placeOf(event);
      const isInFrame = frame !== null && x >= frame.from - 4 && x <= frame.to + 4;
      const width = frame ? frame.to - frame.from : 0;
      press.current = { x, grip: isInFrame && frame ? x - frame.from : width / 2, isDrag: false };
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove: (event: PointerEvent<HTMLElement>) => {
      const { x } = placeOf(event);
      if (event.pointerType === "mouse") setHover(press.current ? null : x);
      const held = press.current;
      if (!held) return;
      if (Math.abs(x - held.x) > dragPixels) held.isDrag = true;
      if (held.isDrag) goTo(x - held.grip);
    },
    onPointerUp: (event: PointerEvent<HTMLElement>) => {
      const held = press.current;
      press.current = null;
      if (held && !held.isDrag)
        tapAt(placeOf(event), event.pointerType === "mouse" ? mouseReach : fingerReach);
    },
    onPointerCancel: () => {
      press.current = null;
    },
    onPointerLeave: () => setHover(null),
  };
  return { hover, handlers };
}

function placeOf(event: PointerEvent<HTMLElement>): { x: number; y: number } {
  const box = event.currentTarget.getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
}
