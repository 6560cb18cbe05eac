import { useEffect, useRef, useSyncExternalStore } from "react";
import { nowhere, type Playing } from "../playing";
import type { BarBox } from "./engraving";
import styles from "./system-playing.module.css";

/** What is shown of a system's drawing, in its units. */
interface Shown {
  readonly x: number;
  readonly width: number;
  readonly height: number;
}

/**
 * The bar that sounds, if it stands on this system: a wash over it, and a line at the note. Both lie on layers of their own
 * over the drawing, so that no notes are painted again from note to note.
 *
 * @param margin above and below the staves, in units.
 */
export function SystemPlaying({
  playing,
  boxes,
  shown,
  margin,
}: {
  playing: Playing;
  boxes: readonly BarBox[];
  shown: Shown;
  margin: number;
}) {
  const bar = useSyncExternalStore(
    playing.subscribe,
    () => {
      const barIndex = playing.at()?.barIndex;
      return boxes.some((box) => box.barIndex === barIndex) ? (barIndex ?? null) : null;
    },
    nowhere,
  );
  const box = boxes.find(({ barIndex }) => barIndex === bar);
  if (!box) return null;
  const share = (length: number, whole: number) => `${(length / whole) * 100}%`;
  const down = {
    top: share(box.top - margin, shown.height),
    height: share(box.bottom - box.top + 2 * margin, shown.height),
  };
  const across = { left: share(box.x - shown.x, shown.width), width: share(box.width, shown.width) };
  return (
    <>
      <div
        className={styles.wash}
        data-playing={box.barIndex}
        style={{ ...down, ...across }}
        aria-hidden="true"
      />
      <NoteLine playing={playing} bar={box.barIndex} down={down} />
    </>
  );
}

/** A line through the note that sounds. It is moved by hand: nothing is drawn again from note to note. */
function NoteLine({
  playing,
  bar,
  down,
}: {
  playing: Playing;
  bar: number;
  down: { readonly top: string; readonly height: string };
}) {
  const line = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const move = () => {
      const at = playing.at();
      const element = line.current;
      if (!element || at?.barIndex !== bar) return;
      const x = at.noteId === null ? null : findNoteX(element, at.noteId);
      element.style.visibility = x === null ? "hidden" : "visible";
      if (x !== null) element.style.transform = `translateX(${x}px)`;
    };
    move();
    return playing.subscribe(move);
  }, [playing, bar]);
  return (
    <div ref={line} className={styles.line} style={{ ...down, visibility: "hidden" }} aria-hidden="true" />
  );
}

/** Middle of a note's head, in pixels from the left of the system; null when it is not drawn. */
function findNoteX(line: HTMLElement, noteId: string): number | null {
  const system = line.parentElement;
  const note = system?.querySelector("[data-drawn]")?.shadowRoot?.getElementById(noteId);
  const head = note?.querySelector(".notehead") ?? note;
  if (!system || !head) return null;
  const { left, width } = head.getBoundingClientRect();
  return left + width / 2 - system.getBoundingClientRect().left;
}
