/** Inside the shadow root of a system: the page's own styles do not reach it, and its ids are not the page's. */
const drawingStyles = `
  :host > svg { display: block; width: 100%; height: 100%; overflow: visible; }
  text { font-family: var(--serif), Leipzig; }
  .mNum text { font-family: var(--sans); font-style: normal; fill: var(--ink-3); color: var(--ink-3); }
  polyline { fill: none; }
  .cutBar { opacity: 0.48; }
  .shown { stroke: currentColor; stroke-width: 50px; stroke-linejoin: round; paint-order: stroke; }
  .chosen .notehead { color: var(--pf); fill: var(--pf); stroke: var(--pf); }
`;

/** The shadow root in which an engraved system is drawn; made when there is none yet. */
export function openDrawingRoot(element: HTMLElement): ShadowRoot {
  const root = element.shadowRoot ?? element.attachShadow({ mode: "open" });
  if (!root.querySelector("style")) {
    const style = document.createElement("style");
    style.textContent = drawingStyles;
    root.append(style);
  }
  return root;
}
