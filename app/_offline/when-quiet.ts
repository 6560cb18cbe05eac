/** How long a page must have been let alone before something of it is put by, in milliseconds. */
const quietMs = 2_500;

/** Does something once nothing has asked for it for a while and the page has nothing else to do. */
export function whenQuiet(work: () => void): { start: () => void; stop: () => void } {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const idle = () => {
    // Safari has no way to ask.
    if ("requestIdleCallback" in window) requestIdleCallback(work, { timeout: quietMs });
    else work();
  };
  const stop = () => clearTimeout(timer);
  const start = () => {
    stop();
    timer = setTimeout(idle, quietMs);
  };
  return { start, stop };
}
