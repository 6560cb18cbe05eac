import type { Turn } from "./turning";

export interface PressedKey {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly altKey: boolean;
  readonly metaKey: boolean;
}

/** Foot pedals for turning pages send one of these pairs: page keys, arrows, or space. */
const turns: Readonly<Record<string, Turn>> = {
  PageDown: "on",
  ArrowRight: "on",
  ArrowDown: "on",
  " ": "on",
  PageUp: "back",
  ArrowLeft: "back",
  ArrowUp: "back",
  Home: "first",
  End: "last",
};

/**
 * What a key turns; null for every other key and for the browser's own.
 *
 * @param isOnControl whether the focus is on a button or link, which space presses.
 */
export function readKey(pressed: PressedKey, isOnControl: boolean): Turn | null {
  const { key, shiftKey, ctrlKey, altKey, metaKey } = pressed;
  if (ctrlKey || altKey || metaKey) return null;
  if (key === " ") {
    if (isOnControl) return null;
    return shiftKey ? "back" : "on";
  }
  return shiftKey || !Object.hasOwn(turns, key) ? null : (turns[key] ?? null);
}
