/*
 * What runs in the measured page. Each function is sent there as text, so none can name anything outside itself.
 */

interface Stopwatch {
  strip: number | null;
  notes: number | null;
  longestTask: number;
}

type Timed = typeof globalThis & { collaStopwatch?: Stopwatch };

/** From before the page's own scripts on: notes when the strip and the first system's notes are there. */
export function startStopwatch(): void {
  const watch: Stopwatch = { strip: null, notes: null, longestTask: 0 };
  (globalThis as Timed).collaStopwatch = watch;
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) watch.longestTask = Math.max(watch.longestTask, duration);
  }).observe({ type: "longtask", buffered: true });
  const isSeen = (element: Element | null | undefined) => element?.checkVisibility() ?? false;
  const look = () => {
    const strip = document.querySelector("[role=slider] svg rect");
    const drawing = document.querySelector("[aria-label=Score] [data-first-bar] [data-drawn]");
    const [hasStrip, hasNotes] = [isSeen(strip), isSeen(drawing?.shadowRoot?.querySelector("g.note"))];
    requestAnimationFrame(() => {
      // The frame that had it has been drawn by now.
      if (hasStrip) watch.strip ??= performance.now();
      if (hasNotes) watch.notes ??= performance.now();
      if (watch.strip === null || watch.notes === null) look();
    });
  };
  look();
}

/** Null until everything is there. Milliseconds since the start of the navigation; the task in milliseconds. */
export function readOpening(): { strip: number; notes: number; longestTask: number } | null {
  const { strip = null, notes = null, longestTask = 0 } = (globalThis as Timed).collaStopwatch ?? {};
  return strip === null || notes === null ? null : { strip, notes, longestTask };
}

/** Milliseconds from the next press until the system with this bar, or the one beside it, is on view with its notes. */
export function timeArrival(bar: number): Promise<number> {
  const score = document.querySelector("[aria-label=Score]");
  const isOnView = (row: Element) => {
    const [at, view] = [row.getBoundingClientRect(), score?.getBoundingClientRect()];
    return view !== undefined && at.top < view.bottom && at.bottom > view.top;
  };
  const hasBar = (row: Element) =>
    bar >= Number(row.getAttribute("data-first-bar")) - 1 &&
    bar <= Number(row.getAttribute("data-last-bar")) + 1;
  const hasNotes = (row: Element) =>
    Boolean(row.querySelector("[data-drawn]")?.shadowRoot?.querySelector("g.note"));
  const hasArrived = () =>
    [...(score?.querySelectorAll("[data-first-bar]") ?? [])].some(
      (row) => hasBar(row) && isOnView(row) && hasNotes(row),
    );
  return new Promise((resolve) => {
    const look = (start: number) => {
      const isThere = hasArrived();
      requestAnimationFrame(() => (isThere ? resolve(performance.now() - start) : look(start)));
    };
    addEventListener("pointerdown", () => look(performance.now()), { capture: true, once: true });
  });
}
