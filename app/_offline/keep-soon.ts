/** Told on the window when what a page shows has changed, so that what is kept of it is old. */
const changed = "colla-page-changed";

/** What the server shows of the open page changed: it is put by again when the page is idle. */
export function notePageChanged(): void {
  window.dispatchEvent(new Event(changed));
}

/** @returns stops it. */
export function onPageChanged(listener: () => void): () => void {
  window.addEventListener(changed, listener);
  return () => window.removeEventListener(changed, listener);
}
