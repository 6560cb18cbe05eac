import type { Turn } from "./turning";

/** Where a finger came down and went up, in CSS pixels of the window, and how many fingers there were. */
export interface Gesture {
  readonly fromX: number;
  readonly fromY: number;
  readonly toX: number;
  readonly toY: number;
  readonly fingers: number;
}

/** A finger that lies still moves so far at most. */
const stillPixels = 12;
/** A swipe goes so far at least, and further across than up or down. */
const swipePixels = 40;

/** "tap" for a finger that came down and went up in its place, a turn for a swipe, null for anything else. */
export function readGesture({ fromX, fromY, toX, toY, fingers }: Gesture): Turn | "tap" | null {
  if (fingers !== 1) return null;
  const across = toX - fromX;
  const down = toY - fromY;
  if (Math.hypot(across, down) <= stillPixels) return "tap";
  if (Math.abs(across) < swipePixels || Math.abs(across) <= Math.abs(down)) return null;
  // As a leaf is turned: from right to left goes on.
  return across < 0 ? "on" : "back";
}
