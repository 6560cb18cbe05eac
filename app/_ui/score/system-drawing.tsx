"use client";

import { useEffect, useRef, useState } from "react";
import styles from "./system-drawing.module.css";

/** Inside the shadow root of a system: the page's own styles do not reach it, and its ids are not the page's. */
const drawingStyles = `
  svg { display: block; width: 100%; height: auto; overflow: visible; }
  text, tspan { font-family: var(--serif); }
  .mNum text, .mNum tspan { font-family: var(--sans); font-style: normal; fill: var(--ink-3); color: var(--ink-3); }
  .cutBar { opacity: 0.48; }
`;

const svgType = "image/svg+xml";

/** Reads a drawing as inert nodes: no script can be in them, and none would run. Null when it is no SVG. */
function readDrawing(text: string): SVGSVGElement | null {
  const parsed = new DOMParser().parseFromString(text, svgType);
  const root = parsed.documentElement;
  if (parsed.querySelector("parsererror") || !(root instanceof SVGSVGElement)) return null;
  for (const element of parsed.querySelectorAll("script, foreignObject, iframe, style, animate, set")) {
    element.remove();
  }
  for (const element of parsed.querySelectorAll("*")) {
    for (const { name } of [...element.attributes]) {
      if (name.toLowerCase().startsWith("on")) element.removeAttribute(name);
    }
  }
  return root;
}

/**
 * One system of the score, fetched when `isNear`, in a shadow root of its own.
 *
 * @param x,width what is shown of the drawing, in its units.
 * @param greyBars places within the system (from 0) of the bars that are cut.
 */
export function SystemDrawing({
  url,
  isNear,
  x,
  width,
  height,
  greyBars,
}: {
  url: string;
  isNear: boolean;
  x: number;
  width: number;
  height: number;
  greyBars: readonly number[];
}) {
  const host = useRef<HTMLDivElement>(null);
  const [drawing, setDrawing] = useState<SVGSVGElement | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [turn, setTurn] = useState(0);

  // biome-ignore lint/correctness/useExhaustiveDependencies: a new turn is a reason to fetch again
  useEffect(() => {
    if (!isNear) return setDrawing(null);
    const stop = new AbortController();
    setProblem(null);
    fetch(url, { signal: stop.signal })
      .then(async (response) => {
        const read = response.ok ? readDrawing(await response.text()) : null;
        if (read) setDrawing(read);
        else setProblem("This system did not arrive.");
      })
      .catch(() => {
        if (!stop.signal.aborted) setProblem("This system did not arrive. Check the connection.");
      });
    return () => stop.abort();
  }, [url, isNear, turn]);

  useEffect(() => {
    const element = host.current;
    if (!element) return;
    const root = element.shadowRoot ?? element.attachShadow({ mode: "open" });
    const style = document.createElement("style");
    style.textContent = drawingStyles;
    root.replaceChildren(style);
    if (!drawing) return;
    const shown = document.importNode(drawing, true);
    shown.setAttribute("viewBox", `${x} 0 ${width} ${height}`);
    shown.removeAttribute("width");
    shown.removeAttribute("height");
    root.append(shown);
  }, [drawing, x, width, height]);

  const grey = greyBars.join(" ");
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new drawing must be greyed again
  useEffect(() => {
    const bars = host.current?.shadowRoot?.querySelectorAll("g.measure") ?? [];
    const cut = new Set(grey === "" ? [] : grey.split(" ").map(Number));
    for (const [place, bar] of bars.entries()) bar.classList.toggle("cutBar", cut.has(place));
  }, [grey, drawing, x, width, height]);

  return (
    <>
      <div ref={host} className={styles.drawing} aria-hidden="true" />
      {problem && (
        <p className={styles.problem}>
          {problem}{" "}
          <button type="button" onClick={() => setTurn((last) => last + 1)}>
            Try again
          </button>
        </p>
      )}
    </>
  );
}
