import { useEffect, useRef, useSyncExternalStore } from "react";
import { nowhere, type Playing } from "../playing";
import type { BarBox } from "./engraving";
import styles from "./system-playing.module.css";

/** The bar that sounds, if it stands on this system: a wash over it, and a line at the note. */
export function SystemPlaying({
  playing,
  boxes,
  unit,
}: {
  playing: Playing;
  boxes: readonly BarBox[];
  unit: number;
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
  const [top, bottom] = [box.top - 14 * unit, box.bottom + 14 * unit];
  return (
    <g pointerEvents="none" data-playing={box.barIndex}>
      <rect className={styles.wash} x={box.x} y={top} width={box.width} height={bottom - top} />
      <NoteLine playing={playing} box={box} top={top} bottom={bottom} />
    </g>
  );
}

/** A line through the note that sounds. It is moved by hand: nothing is drawn again from note to note. */
function NoteLine({
  playing,
  box,
  top,
  bottom,
}: {
  playing: Playing;
  box: BarBox;
  top: number;
  bottom: number;
}) {
  const line = useRef<SVGPathElement>(null);
  useEffect(() => {
    const move = () => {
      const at = playing.at();
      const element = line.current;
      if (!element || at?.barIndex !== box.barIndex) return;
      const x = at.noteId === null ? null : findNoteX(element, at.noteId);
      if (x === null) element.setAttribute("visibility", "hidden");
      else {
        element.setAttribute("d", `M${x} ${top}V${bottom}`);
        element.removeAttribute("visibility");
      }
    };
    move();
    return playing.subscribe(move);
  }, [playing, box, top, bottom]);
  return <path ref={line} className={styles.line} visibility="hidden" />;
}

/** Middle of a note's head in the units of the drawing over it; null when it is not drawn. */
function findNoteX(over: SVGPathElement, noteId: string): number | null {
  const svg = over.ownerSVGElement;
  const root = svg?.parentElement?.querySelector("[data-drawn]")?.shadowRoot;
  const note = root?.getElementById(noteId);
  const head = note?.querySelector(".notehead") ?? note;
  if (!svg || !head) return null;
  const [page, at] = [svg.getBoundingClientRect(), head.getBoundingClientRect()];
  const { x, width } = svg.viewBox.baseVal;
  return page.width > 0 ? x + ((at.left + at.width / 2 - page.left) * width) / page.width : null;
}
