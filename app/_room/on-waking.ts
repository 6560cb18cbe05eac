/**
 * Calls `wake` whenever the device may have been away: back from sleep or from another tab, a page taken out of the
 * browser's memory, the network gone or come back.
 *
 * @returns stops it.
 */
export function onWaking(wake: () => void): () => void {
  const stop = new AbortController();
  const { signal } = stop;
  const whenVisible = () => {
    if (document.visibilityState === "visible") wake();
  };
  for (const name of ["online", "offline", "pageshow"]) window.addEventListener(name, wake, { signal });
  for (const name of ["visibilitychange", "resume"]) document.addEventListener(name, whenVisible, { signal });
  return () => stop.abort();
}
