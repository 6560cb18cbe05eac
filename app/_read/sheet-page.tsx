"use client";

import { useEffect, useLayoutEffect, useRef, useState } from "react";
import { Spoken } from "@/app/_ui/spoken";
import type { ReadingPage } from "@/lib/engrave/pages/reading-plan";
import { composePage } from "./compose-page";
import type { PageSize } from "./fit-pages";
import type { Pictures } from "./pictures";
import { describePage } from "./say-page";
import styles from "./sheet-page.module.css";

/** Inside the shadow root of a page: the screen's own styles do not reach it, and its ids are not the screen's. */
const pageStyles = `
  :host > svg { display: block; width: 100%; height: 100%; overflow: visible; }
  text { font-family: var(--serif), Leipzig; }
  .mNum text { font-family: var(--sans); font-style: normal; fill: var(--ink-2); }
  polyline { fill: none; }
  .words { font-family: var(--serif); font-weight: 400; }
  .words.sans { font-family: var(--sans); }
  .words.music { font-family: Leipzig; }
  .words.bold { font-weight: 700; }
  .words.italic { font-style: italic; }
  .words.quiet { fill: var(--ink-3); }
`;

/**
 * One page. It is drawn before it is shown, when the browser has nothing else to do, so that turning to it only makes it
 * seen.
 */
export function SheetPage({
  page,
  size,
  pictures,
  isShown,
  onRetry,
}: {
  page: ReadingPage;
  size: PageSize;
  pictures: Pictures;
  isShown: boolean;
  onRetry: () => void;
}) {
  const host = useRef<HTMLDivElement>(null);
  const [isDrawn, setIsDrawn] = useState(false);
  const isComplete = page.systems.every(({ index }) => pictures.find(index) !== null);
  const hasFailed = page.systems.some(({ index }) => pictures.hasFailed(index));
  const { width, height } = size;
  const draw = () => {
    const root = host.current && openRoot(host.current);
    if (!root || root.querySelector("svg")) return;
    root.append(composePage(page, { width, height }, (index) => pictures.find(index)));
    setIsDrawn(true);
  };
  const drawNow = useRef(draw);
  drawNow.current = draw;
  useLayoutEffect(() => {
    if (isShown && isComplete) drawNow.current();
  }, [isShown, isComplete]);
  useEffect(() => {
    if (isShown || !isComplete) return;
    return whenIdle(() => drawNow.current());
  }, [isShown, isComplete]);
  return (
    <section
      className={styles.page}
      data-page={page.number}
      data-number={page.number % 2 === 1 ? "odd" : "even"}
      data-shown={isShown || undefined}
      data-drawn={isDrawn || undefined}
    >
      {isShown && <Spoken>{describePage(page)}</Spoken>}
      <div ref={host} className={styles.drawing} aria-hidden="true" />
      {isShown && hasFailed && (
        <p className={styles.problem} role="alert">
          A line of this page did not arrive.{" "}
          <button type="button" onClick={onRetry}>
            Try again
          </button>
        </p>
      )}
    </section>
  );
}

function openRoot(element: HTMLElement): ShadowRoot {
  if (element.shadowRoot) return element.shadowRoot;
  const root = element.attachShadow({ mode: "open" });
  const style = document.createElement("style");
  style.textContent = pageStyles;
  root.append(style);
  return root;
}

/** @returns takes it back. */
function whenIdle(work: () => void): () => void {
  // Safari has no way to ask.
  if (!("requestIdleCallback" in window)) {
    const timer = setTimeout(work, 50);
    return () => clearTimeout(timer);
  }
  const asked = requestIdleCallback(work, { timeout: 1_000 });
  return () => cancelIdleCallback(asked);
}
