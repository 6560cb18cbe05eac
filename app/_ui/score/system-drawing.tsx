"use client";

import { type RefObject, useEffect, useRef, useState } from "react";
import { composeSystem, measureHead } from "./compose-system";
import { drawInTurn } from "./draw-in-turn";
import { openDrawingRoot } from "./open-drawing-root";
import { readDrawing } from "./read-drawing";
import styles from "./system-drawing.module.css";

/**
 * One system of the score, fetched when `isNear`, in a shadow root of its own. Of a system that a fold has cut off on the
 * left, its clefs and key signatures are shown again in front of what is left.
 *
 * @param x,width what is shown of the drawing, in its units.
 * @param greyBars places within the system (from 0) of the bars that are cut.
 * @param head width of the repeated clefs and keys, as last told by `onHead`; 0 for none.
 */
export function SystemDrawing({
  url,
  isNear,
  x,
  width,
  height,
  firstPlace,
  lastPlace,
  head,
  greyBars,
  noteIds,
  onHead,
  onDrawn,
}: {
  url: string;
  isNear: boolean;
  x: number;
  width: number;
  height: number;
  /** Places within the system (from 0) of the first and the last bar that are shown. */
  firstPlace: number;
  lastPlace: number;
  head: number;
  greyBars: readonly number[];
  /** Notes that are drawn heavier, because they are spoken of. */
  noteIds: readonly string[];
  onHead: (width: number) => void;
  /** Told with what stands on the page each time it is drawn, to be measured. */
  onDrawn?: (body: SVGSVGElement) => void;
}) {
  const host = useRef<HTMLDivElement>(null);
  const { drawing, problem, retry } = useDrawing(host, url, isNear);
  const tellHead = useRef(onHead);
  tellHead.current = onHead;
  const tellDrawn = useRef(onDrawn);
  tellDrawn.current = onDrawn;

  useEffect(() => {
    const root = host.current && openDrawingRoot(host.current);
    if (!root) return;
    const old = root.querySelector("svg");
    old?.remove();
    if (!drawing) return;
    const shown = composeSystem(drawing, { x, width, height, firstPlace, lastPlace, head });
    root.append(shown);
    const body = shown.querySelector<SVGSVGElement>(":scope > svg:last-of-type");
    if (body && firstPlace > 0) tellHead.current(measureHead(body, firstPlace));
    if (body) tellDrawn.current?.(body);
  }, [drawing, x, width, height, head, firstPlace, lastPlace]);

  const grey = greyBars.join(" ");
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new drawing must be greyed again
  useEffect(() => {
    const body = host.current?.shadowRoot?.querySelector("svg > svg:last-of-type");
    const cut = new Set(grey === "" ? [] : grey.split(" ").map(Number));
    for (const [place, bar] of (body?.querySelectorAll("g.measure") ?? []).entries()) {
      bar.classList.toggle("cutBar", cut.has(place));
    }
  }, [grey, drawing, x, width, height, head]);

  const spokenOf = noteIds.join(" ");
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new drawing must show them again
  useEffect(() => {
    const root = host.current?.shadowRoot;
    for (const note of root?.querySelectorAll(".shown") ?? []) note.classList.remove("shown");
    for (const id of spokenOf === "" ? [] : spokenOf.split(" ")) {
      root?.getElementById(id)?.querySelector(".notehead")?.classList.add("shown");
    }
  }, [spokenOf, drawing, x, width, height, head]);

  return (
    <>
      <div
        ref={host}
        className={styles.drawing}
        aria-hidden="true"
        data-drawn={drawing !== null || undefined}
      />
      {problem && (
        <p className={styles.problem}>
          {problem}{" "}
          <button type="button" onClick={retry}>
            Try again
          </button>
        </p>
      )}
    </>
  );
}

/** Fetches a drawing while it is near, and lets it go when it is not: a long score would fill the memory. */
function useDrawing(host: RefObject<Element | null>, url: string, isNear: boolean) {
  const [drawing, setDrawing] = useState<SVGSVGElement | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [turn, setTurn] = useState(0);
  const drawnUrl = useRef<string | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new turn is a reason to fetch again
  useEffect(() => {
    const element = host.current;
    if (!element) return;
    const show = (read: SVGSVGElement | null) => {
      drawnUrl.current = read && url;
      setDrawing(read);
    };
    if (!isNear) {
      return drawnUrl.current === null ? undefined : drawInTurn(element, () => show(null), { isLate: true });
    }
    // It has come back before it was let go.
    if (drawnUrl.current === url) return;
    const stop = new AbortController();
    let takeBack = () => {};
    const draw = (text: string | null) => {
      const read = text === null ? null : readDrawing(text);
      if (read) show(read);
      else setProblem("This system did not arrive.");
    };
    setProblem(null);
    const ask = () =>
      fetch(url, { signal: stop.signal })
        .then(async (response) => {
          const text = response.ok ? await response.text() : null;
          if (!stop.signal.aborted) takeBack = drawInTurn(element, () => draw(text));
        })
        .catch(() => {
          if (!stop.signal.aborted) setProblem("This system did not arrive. Check the connection.");
        });
    // Systems that come near together are not asked for within one task: each takes the browser some milliseconds.
    const soon = setTimeout(ask, 0);
    return () => {
      clearTimeout(soon);
      stop.abort();
      takeBack();
    };
  }, [host, url, isNear, turn]);
  return { drawing, problem, retry: () => setTurn((last) => last + 1) };
}
