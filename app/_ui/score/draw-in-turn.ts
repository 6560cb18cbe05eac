/** Something to be drawn, or let go, when its turn comes. */
interface Turn {
  /** Where it stands on the page. */
  readonly element: Element;
  readonly act: () => void;
  /** What is let go has time. */
  readonly isLate: boolean;
}

const waiting = new Set<Turn>();
let isRunning = false;

/** How far from the middle of the window, in pixels. */
function distanceOf({ element }: Turn): number {
  const { top, bottom } = element.getBoundingClientRect();
  return Math.abs((top + bottom - window.innerHeight) / 2);
}

/** What is nearest to the eye, before all that only has to go. */
function findNext(): Turn | null {
  const wanted = [...waiting].filter(({ isLate }) => !isLate);
  if (wanted.length < 2) return wanted[0] ?? waiting.values().next().value ?? null;
  const measured = wanted.map((turn) => ({ turn, distance: distanceOf(turn) }));
  return measured.reduce((nearest, one) => (one.distance < nearest.distance ? one : nearest)).turn;
}

/** Behind the drawing of a frame, so that what was changed in a turn is laid out and painted before the next one. */
function afterFrame(run: () => void): void {
  // An unseen page draws no frames.
  if (document.hidden) setTimeout(run, 0);
  else requestAnimationFrame(() => setTimeout(run, 0));
}

function runNext(): void {
  const turn = findNext();
  isRunning = turn !== null;
  if (turn === null) return;
  waiting.delete(turn);
  afterFrame(runNext);
  turn.act();
}

/**
 * Does one thing a frame, the nearest to the eye first: many systems that come onto the page together would hold it up for
 * as long as all of them take.
 *
 * @returns takes it back while it has not been done.
 */
export function drawInTurn(
  element: Element,
  act: () => void,
  { isLate = false }: { isLate?: boolean } = {},
): () => void {
  const turn = { element, act, isLate };
  waiting.add(turn);
  if (!isRunning) {
    isRunning = true;
    setTimeout(runNext, 0);
  }
  return () => waiting.delete(turn);
}
