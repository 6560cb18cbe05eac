"use client";

import { type PointerEvent, type TouchEvent, useEffect, useRef } from "react";
import { readGesture } from "./read-gesture";
import { readKey } from "./read-key";
import { tapZone } from "./tap-zone";
import type { Turn } from "./turning";

/** What hands and feet ask for: a turn, or the bar at the top. */
export type Ask = (what: Turn | "bar") => void;

/** Turns by keys and pedals, wherever the focus is. */
export function useKeys(ask: Ask): void {
  const told = useRef(ask);
  told.current = ask;
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const isOnControl = event.target instanceof Element && event.target.closest("button, a") !== null;
      const turn = readKey(event, isOnControl);
      if (turn === null) return;
      // The page itself has nothing to scroll.
      event.preventDefault();
      told.current(turn);
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  }, []);
}

interface Touching {
  readonly from: { readonly x: number; readonly y: number };
  readonly pointers: Set<number>;
  /** The most that were down together. */
  fingers: number;
}

/**
 * Turns by taps and swipes on what gets these handlers. It does not wait for the click that a browser makes of a tap: soon
 * after a swipe Chromium makes none. Nor may a click come afterwards, which would press what the tap has brought.
 */
export function useFingers(ask: Ask) {
  const touching = useRef<Touching | null>(null);
  const lift = (event: PointerEvent, isCancelled: boolean) => {
    const now = touching.current;
    if (!now?.pointers.delete(event.pointerId)) return;
    if (isCancelled) now.fingers = Infinity;
    if (now.pointers.size > 0) return;
    touching.current = null;
    const { clientX, clientY } = event;
    const gesture = readGesture({
      ...{ fromX: now.from.x, fromY: now.from.y, toX: clientX, toY: clientY, fingers: now.fingers },
    });
    if (gesture === null) return;
    const size = { width: window.innerWidth, height: window.innerHeight };
    ask(gesture === "tap" ? tapZone(clientX, clientY, size) : gesture);
  };
  return {
    onTouchEnd: (event: TouchEvent) => {
      if (event.cancelable) event.preventDefault();
    },
    onPointerDown: (event: PointerEvent) => {
      if (event.button !== 0) return;
      // Also when it goes up elsewhere.
      event.currentTarget.setPointerCapture(event.pointerId);
      const from = { x: event.clientX, y: event.clientY };
      // The first finger of all: whatever did not go up before was lost.
      if (event.isPrimary) touching.current = null;
      touching.current ??= { from, pointers: new Set(), fingers: 0 };
      touching.current.pointers.add(event.pointerId);
      touching.current.fingers = Math.max(touching.current.fingers, touching.current.pointers.size);
    },
    onPointerUp: (event: PointerEvent) => lift(event, false),
    onPointerCancel: (event: PointerEvent) => lift(event, true),
  };
}
