/** Told on the window when what a page shows has changed, so that what is kept of it is old. */
const changed = "colla-page-changed";

/** Told on the window when something was put by. */
const kept = "colla-kept";

export function noteKept(): void {
  window.dispatchEvent(new Event(kept));
}

/** @returns stops it. */
export function onKept(listener: () => void): () => void {
  window.addEventListener(kept, listener);
  return () => window.removeEventListener(kept, listener);
}

/** What the server shows of the open page changed: it is put by again when the page is idle. */
export function notePageChanged(): void {
  window.dispatchEvent(new Event(changed));
}

/** @returns stops it. */
export function onPageChanged(listener: () => void): () => void {
  window.addEventListener(changed, listener);
  return () => window.removeEventListener(changed, listener);
}
